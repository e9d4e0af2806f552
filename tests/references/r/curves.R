# Reference values for tests/physiology/curves/compare.test.ts from R's own lm and nls.
# Run in this folder: Rscript curves.R  (writes curves.json)
# Data: test '10_pre' of the CC0 set of Sylta et al. 2016 (R package exscidata), and the invented test A.
shapes <- list(
  `10_pre` = list(x = c(125, 175, 225, 250, 275, 300, 325, 350), y = c(0.93, 0.87, 0.86, 0.92, 1.2, 1.69, 2.6, 4.69)),
  A = list(x = c(100, 140, 180, 220, 260, 300, 340), y = c(0.9, 0.8, 0.9, 1.1, 1.6, 2.9, 7.9)))
list_of <- function(v) paste0("[", paste(ifelse(is.finite(v), sprintf("%.15g", v), "null"), collapse = ", "), "]")
one <- function(name, s) {
  n <- length(s$y)
  sigma <- sqrt(0.15^2 + (0.04 * s$y)^2)
  models <- lapply(2:4, function(degree) {
    m <- lm(y ~ poly(x, degree, raw = TRUE), data = s)
    k <- degree + 2
    sprintf('{"degree": %d, "coefficients": %s, "se": %s, "sigma": %.15g, "hat": %s, "loo": %.15g, "rstudent": %s, "aicc": %s, "chisq": %.15g, "p": %.15g}',
      degree, list_of(coef(m)), list_of(summary(m)$coefficients[, 2]), summary(m)$sigma, list_of(hatvalues(m)),
      sqrt(mean((residuals(m) / (1 - hatvalues(m)))[2:(n - 1)]^2)), list_of(rstudent(m)),
      if (n > k + 1) sprintf("%.15g", extractAIC(m)[2] + 2 + 2 * k * (k + 1) / (n - k - 1)) else "null",
      sum((residuals(m) / sigma)^2), pchisq(sum((residuals(m) / sigma)^2), n - degree - 1, lower.tail = FALSE))
  })
  e <- nls(y ~ a + b * exp(c * (x - x[1])), data = s, start = list(a = 0.85, b = 0.004, c = 0.031),
    control = nls.control(tol = 1e-12, scaleOffset = 0, warnOnly = TRUE))
  loo <- sapply(2:(n - 1), function(i) {
    d <- data.frame(x = s$x[-i], y = s$y[-i]); x1 <- s$x[1]
    m <- nls(y ~ a + b * exp(c * (x - x1)), data = d, start = as.list(coef(e)), control = nls.control(tol = 1e-10, warnOnly = TRUE))
    s$y[i] - (coef(m)[1] + coef(m)[2] * exp(coef(m)[3] * (s$x[i] - x1)))
  })
  rss <- sum(residuals(e)^2)
  sprintf('"%s": {"polynomials": [%s],\n "exponential": {"coefficients": %s, "se": %s, "sigma": %.15g, "aicc": %.15g, "loo": %.15g}}',
    name, paste(models, collapse = ",\n  "), list_of(coef(e)), list_of(summary(e)$coefficients[, 2]), summary(e)$sigma,
    n * log(rss / n) + 8 + 40 / (n - 5), sqrt(mean(loo^2)))
}
cat('{"provenance": {"source": "', R.version.string, ': lm and nls", "made": "tests/references/r/curves.R", "digits": "lm 10, nls 6"},\n',
  '"shapes": {', paste(mapply(one, names(shapes), shapes), collapse = ",\n"), "}}\n",
  sep = "", file = "curves.json")
