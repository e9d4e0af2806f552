# Kernel densities of invented samples, for tests/numerics/density.test.ts: R's own bandwidth of Silverman 1986
# (bw.nrd0) and normal kernels summed draw by draw (dnorm), without bins. Run: Rscript density.R > density.json
set.seed(20261130)
round3 <- function(x) round(x, 3)
# Of 4k + 1 values the quartiles are values themselves, whatever the definition.
samples <- list(
  normal = round3(rnorm(401, 280, 6)),
  skewed = round3(250 + rgamma(401, 2, 0.2)),
  "two groups" = round3(c(rnorm(150, 230, 3), rnorm(251, 262, 5))),
  few = round3(rnorm(13, 14, 0.4))
)
say <- function(x) paste0("[", paste(sprintf("%.15g", x), collapse = ", "), "]")
one <- function(name) {
  x <- samples[[name]]
  at <- seq(min(x), max(x), length.out = 25)
  y <- sapply(at, function(a) mean(dnorm(a, x, bw.nrd0(x))))
  sprintf('  {"name": "%s", "bandwidth": %.15g, "sd": %.15g, "values": %s,\n   "at": %s,\n   "density": %s}',
          name, bw.nrd0(x), sd(x), say(x), say(at), say(y))
}
cat(sprintf('{"provenance": {"source": "%s", "made": "tests/references/r/density.R"},\n "cases": [\n%s\n]}\n',
            R.version.string, paste(sapply(names(samples), one), collapse = ",\n")))
