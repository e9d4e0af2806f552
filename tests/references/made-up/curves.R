# Thresholds on four curves by R's own fits and roots: lm, nls, smooth.spline; polyroot, uniroot, optimise.
# Run in this folder: Rscript curves.R  (writes curves.json; reads thresholds.json for the tests)
# Every test of thresholds.json that has at least 6 stages of different intensity. Rows stay as they are: a reading given
# twice is two rows here, where the project's code takes one reading of weight 2.
lines <- readLines("thresholds.json")
numbers <- function(line, field) {
  inside <- sub("\\].*", "", sub(paste0('.*"', field, '": \\['), "", line))
  as.numeric(strsplit(inside, ",")[[1]])
}
levels_asked <- c(2, 3, 3.5, 4)
show <- function(v) ifelse(is.na(v), "null", sprintf("%.15g", v))
list_of <- function(v) paste0("[", paste(show(v), collapse = ", "), "]")

# Last place where f rises through a level, right of its lowest point: bracketed on a grid, then by uniroot.
crossing <- function(f, lo, hi, level) {
  g <- seq(lo, hi, length.out = 4001)
  v <- f(g)
  low <- which.min(v)
  up <- which(v[-length(v)] < level & v[-1] >= level)
  up <- up[up >= low]
  if (length(up) == 0) return(NA)
  uniroot(function(q) f(q) - level, c(g[max(up)], g[max(up) + 1]), tol = 1e-13)$root
}
# Farthest below the chord of the curve's own ends, by optimise on the best grid interval.
below_chord <- function(f, slope_of, lo, hi) {
  slope <- (f(hi) - f(lo)) / (hi - lo)
  g <- seq(lo, hi, length.out = 4001)
  below <- f(lo) + slope * (g - lo) - f(g)
  i <- which.max(below)
  if (below[i] < 1e-10 * diff(range(f(g))) || i == 1 || i == 4001) return(NA)
  uniroot(function(q) slope_of(q) - slope, c(g[i - 1], g[i + 1]), tol = 1e-13)$root
}
polynomial <- function(d, degree) {
  m <- mean(range(d$x)); h <- diff(range(d$x)) / 2
  fit <- lm(y ~ poly((x - m) / h, degree, raw = TRUE), data = d)
  c <- unname(coef(fit))
  f <- function(q) rowSums(sapply(seq_along(c), function(k) c[k] * ((q - m) / h)^(k - 1)) |> matrix(nrow = length(q)))
  slope <- function(q) sum(sapply(seq_along(c)[-1], function(k) (k - 1) * c[k] * ((q - m) / h)^(k - 2))) / h
  lo <- min(d$x); hi <- max(d$x)
  sprintf('{"sse": %.15g, "levels": %s, "belowChord": %s}', deviance(fit), list_of(sapply(levels_asked, function(l) crossing(f, lo, hi, l))),
    show(if (degree == 2) NA else below_chord(f, slope, lo, hi)))
}
# The variable projection of nls ("plinear") from the best of a grid of growths; none where that grid ends.
exponential <- function(d) {
  lo <- min(d$x); hi <- max(d$x); d$z <- (d$x - lo) / (hi - lo)
  growths <- exp(seq(log(0.05), log(25), length.out = 400))
  sse <- sapply(growths, function(g) deviance(lm(y ~ exp(g * (z - 1)), data = d)))
  i <- which.min(sse)
  if (i < 3 || i > 398) return("null")
  for (tol in c(1e-9, 1e-8, 1e-7)) {
    fit <- try(nls(y ~ cbind(1, exp(g * (z - 1))), data = d, start = list(g = growths[i] * 1.03), algorithm = "plinear",
      control = nls.control(tol = tol, maxiter = 200)), silent = TRUE)
    if (!inherits(fit, "try-error")) break
  }
  if (inherits(fit, "try-error") || coef(fit)[3] * coef(fit)[1] <= 0) return("null")
  p <- unname(coef(fit)); rate <- p[1] / (hi - lo)
  f <- function(q) p[2] + p[3] * exp(rate * (q - hi))
  slope <- function(q) rate * p[3] * exp(rate * (q - hi))
  sprintf('{"sse": %.15g, "levels": %s, "belowChord": %s}', deviance(fit), list_of(sapply(levels_asked, function(l) crossing(f, lo, hi, l))), show(below_chord(f, slope, lo, hi)))
}
# smooth.spline with every intensity a knot is the natural cubic smoothing spline; its lambda is set so that the
# degrees of freedom are min(4.5, n - 1.5) exactly, which its own search for df only meets to about 4 digits. Its penalty
# takes 1/3 as 0.333 (sgram.f), so the curve is the natural spline to 4 digits or so and no further.
spline_of <- function(d) {
  lo <- min(d$x); hi <- max(d$x); u <- sort(unique(d$x)); n <- length(u)
  fit_at <- function(loglam) smooth.spline(d$x, d$y, lambda = exp(loglam), all.knots = TRUE, tol = 1e-9 * (hi - lo))
  loglam <- uniroot(function(l) fit_at(l)$df - min(4.5, n - 1.5), c(-25, 5), tol = 1e-14)$root
  fit <- fit_at(loglam)
  f <- function(q) predict(fit, q)$y
  middles <- (u[-1] + u[-n]) / 2
  sprintf('{"fitted": %s, "between": %s, "bending": %s, "levels": %s}', list_of(f(u)), list_of(f(middles)),
    list_of(predict(fit, u, deriv = 2)$y), list_of(sapply(levels_asked, function(l) crossing(f, lo, hi, l))))
}
out <- c()
for (line in lines[grepl('^\\{"name"', lines)]) {
  name <- sub('",.*', "", sub('^\\{"name": "', "", line))
  d <- data.frame(x = numbers(line, "x"), y = numbers(line, "y"))
  if (length(unique(d$x)) < 6 || diff(range(d$y)) == 0) next
  out <- c(out, sprintf('{"name": "%s", "quadratic": %s, "cubic": %s, "quartic": %s, "exponential": %s, "spline": %s}', name,
    polynomial(d, 2), polynomial(d, 3), polynomial(d, 4), exponential(d), spline_of(d)))
}
cat('{"provenance": {"source": "', R.version.string, ': lm, nls plinear, smooth.spline, uniroot", "made": "tests/references/made-up/curves.R", "digits": "lm 10, nls 7, smooth.spline 4"},\n"levels": [2, 3, 3.5, 4],\n"tests": [\n',
  paste(out, collapse = ",\n"), "\n]}\n", sep = "", file = "curves.json")
