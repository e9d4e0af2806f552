/**
 * A whole number. TypeScript knows no more of it than that it is a number; where a file is compiled to WebAssembly too
 * (DEVELOPERS.md, "The kernel"), indices and counts are 32-bit integers and are declared as such.
 */
type i32 = number;
