# Reference values for IntervalRegression, from survreg(type = "interval2", dist = "gaussian") of the R package survival.
# From lash-core:
#   Rscript src/test/r/interval-regression.R > src/test/resources/dev/lash/trend/interval-regression.txt
# Deterministic: the generator and its seed are fixed, numbers are written with 17 digits.
# A set is left out where R warns, where R finds no maximum (or one with a singular information), or where a second run from the first result moves a
# figure by more than 1e-9 of it: agreement to 1e-6 must not rest on figures that R itself has not settled.

suppressPackageStartupMessages(library(survival))
RNGversion("4.0.0")
set.seed(19580417, kind = "Mersenne-Twister", normal.kind = "Inversion", sample.kind = "Rejection")

kinds <- c("point", "interval", "left", "right", "mixed", "coarse", "status")
wanted <- 240

line <- function(...) cat(paste(c(...), collapse = " "), "\n", sep = "")

number <- function(x) ifelse(is.infinite(x), ifelse(x > 0, "Inf", "-Inf"), sprintf("%.17g", x))

generate <- function(kind, covariates, intercept, weighted) {
  n <- sample(c(7, 12, 20, 30), 1, prob = c(0.3, 0.4, 0.2, 0.1))
  x <- matrix(round(rnorm(n * covariates) * 10^runif(1, -2, 3), 4), n)
  if (runif(1) < 0.3) x[, 1] <- 1000 * seq_len(n)
  design <- if (intercept) cbind(1, x) else x
  unit <- 10^runif(1, -3, 3)
  sds <- apply(design, 2, function(v) sqrt(mean(v^2)))
  beta <- rnorm(ncol(design)) * unit / sds
  y <- drop(design %*% beta) + unit * rnorm(n)
  width <- unit * runif(n, 0.05, 2)
  start <- y - runif(n) * width
  grid <- 1.5 * unit
  lower <- y
  upper <- y
  how <- switch(kind,
    point = rep("point", n),
    interval = rep("interval", n),
    left = sample(c("point", "left"), n, TRUE, c(0.6, 0.4)),
    right = sample(c("point", "right"), n, TRUE, c(0.6, 0.4)),
    mixed = sample(c("point", "interval", "left", "right", "none"), n, TRUE, c(0.2, 0.4, 0.15, 0.15, 0.1)),
    coarse = rep("coarse", n),
    status = rep("status", n))
  for (i in seq_len(n)) {
    if (how[i] == "interval") {
      lower[i] <- start[i]
      upper[i] <- start[i] + width[i]
    } else if (how[i] == "left") {
      upper[i] <- y[i] + width[i] / 4
      lower[i] <- -Inf
    } else if (how[i] == "right") {
      lower[i] <- y[i] - width[i] / 4
      upper[i] <- Inf
    } else if (how[i] == "none") {
      lower[i] <- -Inf
      upper[i] <- Inf
    } else if (how[i] == "coarse") {
      lower[i] <- grid * floor(y[i] / grid)
      upper[i] <- lower[i] + grid
    } else if (how[i] == "status") {
      # one look each, at a threshold near the line: above it or not
      threshold <- sum(design[i, ] * beta) + 1.2 * unit * rnorm(1)
      if (y[i] > threshold) { lower[i] <- threshold; upper[i] <- Inf } else { upper[i] <- threshold; lower[i] <- -Inf }
    }
  }
  weights <- if (weighted) sample(1:9, n, TRUE) / 2 else rep(1, n)
  list(kind = kind, design = design, lower = lower, upper = upper, weights = weights)
}

# What Surv and survreg are told is what is written, digit for digit: read back from the text.
as.written <- function(x) as.numeric(number(x))

settle <- function(s) {
  keep <- is.finite(s$lower) | is.finite(s$upper)
  response <- Surv(ifelse(is.finite(s$lower), s$lower, NA_real_)[keep], ifelse(is.finite(s$upper), s$upper, NA_real_)[keep],
    type = "interval2")
  design <- s$design[keep, , drop = FALSE]
  weights <- s$weights[keep]
  control <- survreg.control(rel.tolerance = 1e-14, maxiter = 300, toler.chol = 1e-14)
  run <- function(...) survreg(response ~ 0 + design, weights = weights, dist = "gaussian", control = control, ...)
  tryCatch({
    first <- run()
    second <- run(init = c(first$coefficients, log(first$scale)))
    figures <- function(f) c(f$coefficients, f$scale, sqrt(diag(f$var)), f$loglik[2])
    a <- figures(first)
    b <- figures(second)
    # a variance of 0 is how survreg marks a singular information matrix: no maximum either
    if (anyNA(b) || any(diag(second$var) <= 0) || any(abs(a - b) > 1e-9 * abs(b)) || second$scale < 1e-6 * sd(c(0, s$upper[is.finite(s$upper)]))) NULL
    else second
  }, warning = function(w) NULL, error = function(e) NULL)
}

cat("# ", R.version.string, ", survival ", as.character(packageVersion("survival")), "; made by interval-regression.R\n", sep = "")
cat("# set <kind> <rows> <columns>, then a row a line: lower upper weight design...; then a line each of:\n")
cat("# coefficients, scale, standard errors of the coefficients and of log(scale), log-likelihood\n")
made <- 0
tries <- 0
while (made < wanted) {
  s <- generate(kinds[tries %% length(kinds) + 1], tries %/% 7 %% 3 + 1, tries %/% 21 %% 3 > 0, tries %/% 63 %% 2 == 1)
  tries <- tries + 1
  s$lower <- as.written(s$lower)
  s$upper <- as.written(s$upper)
  s$design[] <- as.written(s$design)
  fit <- settle(s)
  if (is.null(fit)) next
  made <- made + 1
  line("set", s$kind, nrow(s$design), ncol(s$design))
  for (i in seq_len(nrow(s$design))) {
    line(number(s$lower[i]), number(s$upper[i]), number(s$weights[i]), number(s$design[i, ]))
  }
  line(number(fit$coefficients))
  line(number(fit$scale))
  line(number(sqrt(diag(fit$var))))
  line(number(fit$loglik[2]))
}
cat("# ", made, " sets of ", tries, " generated\n", sep = "")
