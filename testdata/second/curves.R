# A second program: reads specimens.csv in each folder named and writes there, as
# survival-again.csv and milestones-again.csv, the curves that the survival
# package makes of it, which knows nothing of ours. Usage: Rscript curves.R FOLDER...
suppressPackageStartupMessages(library(survival))

# Scopes and groups in the order of the published tables: bytes, not letters. The
# unit is the line as received; a row of a list without a day is in no curve.
bytes <- function(x) sort(unique(x), method = "radix")
scopes_of <- function(folder) {
  plants <- read.csv(file.path(folder, "specimens.csv"), colClasses = "character", encoding = "UTF-8")
  lines <- plants[plants$parent == "" & plants$line_day != "", ]
  lines$day <- as.numeric(lines$line_day)
  lines$lost <- as.numeric(lines$line_lost)
  pooled <- lines[lines$pooled == "true", ]
  scopes <- list(list("all", "", "", pooled))
  for (s in bytes(pooled$season)) scopes <- c(scopes, list(list("all", "season", s, pooled[pooled$season == s, ])))
  for (i in bytes(lines$import)) scopes <- c(scopes, list(list(i, "", "", lines[lines$import == i, ])))
  scopes
}

quoted <- function(x) ifelse(grepl('[",\n]', x), paste0('"', gsub('"', '""', x), '"'), x)
figure <- function(x) ifelse(is.na(x), "", sprintf("%.17g", x))
row <- function(...) cat(paste(..., sep = ","), "\n", sep = "")

survival_of <- function(scope) {
  of <- scope[[4]]
  if (nrow(of) == 0) return(invisible())
  f <- summary(survfit(Surv(day, lost) ~ 1, data = of, conf.type = "log-log"), censored = TRUE)
  start <- quoted(unlist(scope[1:3]))
  if (f$time[1] > 0) row(start[1], start[2], start[3], 0, nrow(of), 0, 0, 1, 0, "", "")
  for (k in seq_along(f$time)) {
    s <- f$surv[k]
    inside <- s > 0 && s < 1
    row(start[1], start[2], start[3], f$time[k], f$n.risk[k], f$n.event[k], f$n.censor[k], figure(s),
      figure(if (s > 0) f$std.err[k] else NA), figure(if (inside) f$lower[k] else NA), figure(if (inside) f$upper[k] else NA))
  }
}

# specimens.csv tells of these three alone which lines may be counted, and of no
# list which rows had a check-in. A milestone on the day of the loss comes before it.
milestones <- c("first new root" = "first_new_root_day", "first new leaf" = "first_new_leaf_day", "established" = "established_day")

milestones_of <- function(scope) {
  of <- scope[[4]]
  if (nrow(of) == 0) return(invisible())
  start <- quoted(unlist(scope[1:3]))
  for (m in names(milestones)) {
    reached <- as.numeric(of[[milestones[[m]]]])
    seen <- !is.na(reached)
    day <- ifelse(seen, reached, of$day)
    what <- factor(ifelse(seen, 1, ifelse(of$lost == 1, 2, 0)), 0:2, c("left", "reached", "lost"))
    f <- survfit(Surv(day, what) ~ 1, id = seq_along(day))
    if (f$time[1] > 0) row(start[1], start[2], start[3], m, 0, 0, 0)
    for (k in seq_along(f$time)) row(start[1], start[2], start[3], m, f$time[k], figure(f$pstate[k, 2]), figure(f$pstate[k, 3]))
  }
}

for (folder in commandArgs(TRUE)) {
  scopes <- scopes_of(folder)
  sink(file.path(folder, "survival-again.csv"))
  row("scope", "group_by", "group", "day", "at_risk", "lost", "left", "share", "std_error", "lower", "upper")
  for (s in scopes) survival_of(s)
  sink()
  sink(file.path(folder, "milestones-again.csv"))
  row("scope", "group_by", "group", "milestone", "day", "share", "lost_share")
  for (s in scopes) milestones_of(s)
  sink()
}
