# Pools every random set of sites in FOLDER/sites.csv with the general-purpose R package metafor and writes FOLDER/figures.tsv: set, figure, value.
# A fit that does not converge is left out. Usage: Rscript reference.R FOLDER
suppressPackageStartupMessages(library(metafor))
options(warn = -1)
folder <- commandArgs(TRUE)[1]
sites <- read.csv(file.path(folder, "sites.csv"))
out <- file(file.path(folder, "figures.tsv"), "w")
emit <- function(set, figure, values) for (i in seq_along(values)) writeLines(paste(set, paste0(figure, "/", i - 1), ifelse(is.na(values[i]), "NA", sprintf("%.17g", as.numeric(values[i]))), sep = "\t"), out)
# a stop by value leaves tau2 to about the root of it, so the steps are followed down to rounding; an end far beyond what the data show keeps the search of a root open
fit <- function(d, ...) tryCatch(rma.uni(d$y, d$v, ..., control = list(threshold = 1e-13, maxiter = 20000, stepadj = 0.5, tau2.max = 100 * (max(d$v) + var(d$y)), tol = 1e-14)), error = function(e) NULL)
one <- function(set, d) {
  for (method in c("DL", "REML", "ML", "PM")) {
    f <- fit(d, method = method)
    if (is.null(f)) next
    emit(set, method, c(f$tau2, f$b, f$se, f$ci.lb, f$ci.ub, f$pval, f$I2))
    emit(set, paste0(method, ":logLik"), f$fit.stats["ll", if (method == "REML") "REML" else "ML"])
    k <- fit(d, method = method, test = "knha")
    if (!is.null(k)) { p <- predict(k); emit(set, paste0(method, ":knha"), c(k$se, k$ci.lb, k$ci.ub, k$pval, p$pi.lb, p$pi.ub)) }
  }
  e <- fit(d, method = "EE")
  emit(set, "common", c(e$b, e$se, e$ci.lb, e$ci.ub, e$QE, e$QEp))
  q <- tryCatch(confint(fit(d, method = "DL"), control = list(tau2.max = 1e4 * (max(d$v) + var(d$y)), tol = 1e-14, maxiter = 5000))$random[1, 2:3], error = function(e) c(NA, NA))
  emit(set, "limits", q)
  if (nrow(d) > 3 && length(unique(d$x)) > 1) { m <- fit(d, mods = d$x, method = "REML", test = "knha"); if (!is.null(m)) emit(set, "line", c(m$tau2, m$b, m$se, m$QE, m$QM)) }
  if (nrow(d) >= 10) { r <- tryCatch(regtest(d$y, d$v, model = "lm"), error = function(e) NULL); if (!is.null(r)) emit(set, "asymmetry", c(r$zval, r$pval)) }
}
for (set in unique(sites$set)) one(set, sites[sites$set == set, ])
close(out)
