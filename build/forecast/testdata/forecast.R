# Forecasts computed by R, apart from the package: the posterior predictive
# distribution of an order, once over the grid of 64 x 64 midpoints and once by
# adaptive integration over the whole square of mu and t = 8/(8+kappa).
# Base R only. Run in this folder: Rscript forecast.R
cases <- list(
  nine_of_twelve = list(y = 9, n = 12, N = 12),
  all_alive      = list(y = 10, n = 10, N = 6),
  all_lost       = list(y = 0, n = 8, N = 10),
  four_imports   = list(y = c(9, 14, 3, 11), n = c(12, 16, 10, 12), N = 24),
  part_unknown   = list(y = c(7.3, 4.75), n = c(11.2, 9.5), N = 15))

lnbb <- function(y, n, mu, k)
  lgamma(n + 1) - lgamma(y + 1) - lgamma(n - y + 1) +
    lbeta(mu * k + y, (1 - mu) * k + n - y) - lbeta(mu * k, (1 - mu) * k)

grid <- function(case, size) {
  mid <- (seq_len(size) - 0.5) / size
  mu <- rep(mid, each = size); k <- rep(8 * (1 - mid) / mid, size)
  ln <- rowSums(mapply(function(y, n) lnbb(y, n, mu, k), case$y, case$n))
  w <- exp(ln - max(ln)); w <- w / sum(w)
  cumsum(sapply(0:case$N, function(y) sum(w * exp(lnbb(y, case$N, mu, k)))))
}

square <- function(f) integrate(Vectorize(function(t)
  integrate(function(mu) f(mu, 8 * (1 - t) / t), 0, 1, rel.tol = 1e-9, subdivisions = 1000)$value),
  0, 1, rel.tol = 1e-8, subdivisions = 1000)$value

integral <- function(case) {
  chance <- function(mu, k) {
    ln <- 0
    for (i in seq_along(case$y)) ln <- ln + lnbb(case$y[i], case$n[i], mu, k)
    exp(ln)
  }
  total <- square(chance)
  cumsum(sapply(0:case$N, function(y)
    square(function(mu, k) chance(mu, k) * exp(lnbb(y, case$N, mu, k))) / total))
}

rows <- c("case,planned,alive,grid,integral")
for (name in names(cases)) {
  a <- grid(cases[[name]], 64); b <- integral(cases[[name]])
  rows <- c(rows, sprintf("%s,%d,%d,%.15g,%.9g", name, cases[[name]]$N, 0:cases[[name]]$N, a, b))
}
writeLines(rows, "forecast.csv")
