/* Reference outputs for tests/numerics/random.test.ts: the published algorithms of SplitMix64 (Steele, Lea & Flood
   2014; public-domain C by S. Vigna) and xoshiro128** 1.1 (Blackman & Vigna 2018, public domain), written from memory.
   Known answers for checking this program itself: SplitMix64 from state 1234567 begins 6457827717110365317
   (widely printed); xoshiro128** from state {1,2,3,4} begins 11520, 0, 5927040, 70819200, 2031721883, 1637235492
   (the test vector of several libraries, from memory).
   gcc -O1 -o /tmp/x xoshiro128.c && /tmp/x > xoshiro128.json */
#include <stdint.h>
#include <stdio.h>

static uint64_t counter;
static uint64_t splitmix64(void) {
  uint64_t z = (counter += 0x9e3779b97f4a7c15ULL);
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

static uint32_t s[4];
static uint32_t rotl(uint32_t x, int k) { return (x << k) | (x >> (32 - k)); }
static uint32_t xoshiro(void) {
  const uint32_t result = rotl(s[1] * 5, 7) * 9;
  const uint32_t t = s[1] << 9;
  s[2] ^= s[0];
  s[3] ^= s[1];
  s[1] ^= s[2];
  s[0] ^= s[3];
  s[2] ^= t;
  s[3] = rotl(s[3], 11);
  return result;
}

static void seed(uint64_t value, uint64_t stream) {
  counter = value;
  for (uint64_t i = 0; i < 2 * stream; i++) splitmix64();
  uint64_t a = splitmix64(), b = splitmix64();
  s[0] = (uint32_t)a;
  s[1] = (uint32_t)(a >> 32);
  s[2] = (uint32_t)b;
  s[3] = (uint32_t)(b >> 32);
}

int main(void) {
  int64_t seeds[] = {0, 1, 42, 20261125, -7, 9007199254740991LL};
  uint64_t streams[] = {0, 1, 5, 0, 3, 2};
  printf("{\"provenance\": {\"source\": \"C program beside this file, gcc\", \"made\": \"tests/references/random/xoshiro128.c\", \"digits\": \"exact\"},\n");
  counter = 1234567;
  printf("\"splitmix64\": {\"seed\": \"1234567\", \"outputs\": [");
  for (int i = 0; i < 5; i++) printf("%s\"%llu\"", i ? ", " : "", (unsigned long long)splitmix64());
  printf("]},\n\"xoshiro128\": [\n");
  for (int k = 0; k < 6; k++) {
    seed((uint64_t)seeds[k], streams[k]);
    printf(" {\"seed\": %lld, \"stream\": %llu, \"bits\": [", (long long)seeds[k], (unsigned long long)streams[k]);
    for (int i = 0; i < 8; i++) printf("%s%u", i ? ", " : "", xoshiro());
    for (int i = 8; i < 1000; i++) xoshiro();
    printf("], \"bit1000\": %u}%s\n", xoshiro(), k < 5 ? "," : "");
  }
  printf("]}\n");
  /* To stderr, for comparison with the known answer by eye. */
  s[0] = 1, s[1] = 2, s[2] = 3, s[3] = 4;
  for (int i = 0; i < 6; i++) fprintf(stderr, "%u ", xoshiro());
  fprintf(stderr, "\n");
}
