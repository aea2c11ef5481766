# One regression on all rows of every random set in FOLDER/rows.csv with the R package survival; writes FOLDER/figures.tsv: set, figure, value.
# Usage: Rscript reference.R FOLDER
suppressPackageStartupMessages(library(survival)); options(warn = -1)
folder <- commandArgs(TRUE)[1]; rows <- read.csv(file.path(folder, "rows.csv")); out <- file(file.path(folder, "figures.tsv"), "w")
emit <- function(set, figure, values) for (i in seq_along(values)) writeLines(paste(set, paste0(figure, "/", i - 1), ifelse(is.finite(values[i]), sprintf("%.17g", values[i]), "NA"), sep = "\t"), out)
tight <- coxph.control(eps = 1e-13, toler.chol = 1e-14, iter.max = 60)
hazards <- function(set, d, ties) { name <- paste("hazards,", ties); late <- any(d$entry > 0)
  y <- if (late) Surv(d$entry, d$time, d$event) else Surv(d$time, d$event); d$y <- y; d$s <- interaction(d$site, d$stratum, drop = TRUE)
  m <- coxph(y ~ group + age + strata(s), d, ties = ties, cluster = person, control = tight); b <- coef(m); g <- unique(d$person)
  a <- rowsum(as.matrix(residuals(m, "dfbeta")), d$person, reorder = FALSE)
  # each person's influence times the change by one Newton step without them, Student's t on people - 1
  D <- t(sapply(g, function(i) b - coef(coxph(y ~ group + age + strata(s), d[d$person != i, ], ties = ties, init = b, control = coxph.control(iter.max = 1, eps = 1e-13)))))
  emit(set, paste0(name, ":log-likelihood"), m$loglik[2]); emit(set, paste0(name, ":coefficient"), b); emit(set, paste0(name, ":error"), sqrt(diag(m$naive.var)))
  emit(set, paste0(name, ":robust"), sqrt(diag(m$var))); emit(set, paste0(name, ":corrected"), sqrt(diag((t(a) %*% D + t(D) %*% a)/2))) }
upper <- list(weibull = function(z) exp(-exp(z)), exponential = function(z) exp(-exp(z)), lognormal = function(z) pnorm(z, lower.tail = FALSE), loglogistic = function(z) plogis(z, lower.tail = FALSE))
ours <- c(weibull = "weibull", exponential = "exponential", lognormal = "log-normal", loglogistic = "log-logistic")
accelerated <- function(set, d, dist) { name <- paste("accelerated,", ours[[dist]])
  f <- survreg(Surv(ifelse(left == 0, NA, left), right, type = "interval2") ~ group + age + factor(site), d, dist = dist, control = survreg.control(rel.tolerance = 1e-14, maxiter = 300))
  X <- model.matrix(f); p <- ncol(X); k <- ncol(f$var); R <- ifelse(is.na(d$right), Inf, d$right)
  # robust errors from scores by central differences, since survreg's own are not of its likelihood where an event lies before the first visit
  l <- function(q) { s <- if (k > p) exp(q[p + 1]) else 1; S <- function(t) upper[[dist]]((log(t) - X %*% q[1:p])/s); log(S(d$left) - ifelse(is.finite(R), S(R), 0)) }
  at <- c(coef(f), if (k > p) log(f$scale))
  U <- sapply(1:k, function(j) { e <- replace(numeric(k), j, 1e-3*sqrt(f$var[j, j])); (l(at - 2*e) - 8*l(at - e) + 8*l(at + e) - l(at + 2*e))/(12*e[j]) })
  robust <- sqrt(diag(f$var %*% crossprod(rowsum(U, d$person)) %*% f$var))[1:3]; G <- length(unique(d$person))
  emit(set, paste0(name, ":log-likelihood"), f$loglik[2]); emit(set, paste0(name, ":coefficient"), coef(f)[1:3]); emit(set, paste0(name, ":error"), sqrt(diag(f$var))[1:3])
  emit(set, paste0(name, ":robust"), robust); emit(set, paste0(name, ":corrected"), robust*sqrt(G/(G - k))) }
for (set in unique(rows$set)) { d <- rows[rows$set == set, ]
  for (ties in c("efron", "breslow")) tryCatch(hazards(set, d, ties), error = function(e) NULL)
  for (dist in names(ours)) tryCatch(accelerated(set, d, dist), error = function(e) NULL) }
close(out)
