# Times R's survfit and survdiff on simulated follow-up of N subjects in two arms:
# exponential losses with means of 45 and 60 days, uniform leaving over 120 days.
# Prints the median of five runs of both together, in seconds.
# Usage: Rscript million.R N whole|continuous
suppressPackageStartupMessages(library(survival))
args <- commandArgs(TRUE)
n <- as.numeric(args[1])
set.seed(20261125)
arm <- rep(0:1, length.out = n)
loss <- rexp(n, ifelse(arm == 1, 1 / 60, 1 / 45))
leave <- runif(n, 0, 120)
if (args[2] == "whole") {
  loss <- ceiling(loss)
  leave <- ceiling(leave)
}
time <- pmin(loss, leave)
lost <- as.integer(loss <= leave)
once <- function() system.time({
  survfit(Surv(time, lost) ~ arm, conf.type = "log-log")
  survdiff(Surv(time, lost) ~ arm)
}, gcFirst = TRUE)[["elapsed"]]
cat(median(replicate(5, once())), "\n")
