# Computes the figures of every data set in FOLDER/sets.csv and FOLDER/rows.csv with the general-purpose R package survival
# and base R, and writes FOLDER/figures.tsv: set, method, figure, value. One process reads all the sets.
# Usage: Rscript reference.R FOLDER
suppressPackageStartupMessages(library(survival))
options(warn = -1)
folder <- commandArgs(TRUE)[1]
sets <- read.csv(file.path(folder, "sets.csv"))
rows <- split(read.csv(file.path(folder, "rows.csv")), factor(read.csv(file.path(folder, "rows.csv"))$set, sets$set))
out <- file(file.path(folder, "figures.tsv"), "w")

scales <- c("plain" = "plain", "log" = "log", "log-log" = "log-log", "logit" = "logit", "arcsin" = "arcsine")

emitter <- function(set, method) function(figure, values) {
  if (length(values) == 0) return(invisible())
  names <- if (length(values) == 1) figure else paste0(figure, "/", seq_along(values) - 1)
  text <- ifelse(is.na(values), "NA", sprintf("%.17g", as.numeric(values)))
  writeLines(paste(set, method, names, text, sep = "\t"), out)
}
# A method that stops says so in one line; the caller decides whether that was to be expected.
attempt <- function(set, method, work) {
  lines <- tryCatch({ work(emitter(set, method)); NULL }, error = function(e) conditionMessage(e))
  if (!is.null(lines)) writeLines(paste(set, method, "stopped", gsub("[\t\n]", " ", lines), sep = "\t"), out)
}
outcome <- function(d, event = d$event)
  if (all(is.na(d$entry))) Surv(d$time, event) else Surv(d$entry, d$time, event)
# Every k-th distinct time and the last, at most about a dozen: the caller takes the same ones.
shown <- function(m) unique(c(seq(1, m, by = max(1, ceiling(m / 12))), m))

curves <- function(d, emit) {
  robust <- !all(is.na(d$weight)) || !all(is.na(d$cluster))
  d$w <- if (all(is.na(d$weight))) 1 else d$weight
  d$own <- if (all(is.na(d$cluster))) seq_len(nrow(d)) else d$cluster
  d$y <- outcome(d)
  for (scale in names(scales)) {
    fit <- if (robust) survfit(y ~ 1, data = d, weights = w, cluster = own, robust = TRUE, conf.type = scale)
           else survfit(y ~ 1, data = d, conf.type = scale)
    at <- shown(length(fit$time))
    s <- summary(fit, times = fit$time[at], extend = TRUE)
    if (scale == "plain") {
      emit("time", s$time); emit("notYet", s$surv); emit("standardError", s$std.err); emit("atRisk", s$n.risk)
    }
    emit(paste0("lower:", scales[scale]), s$lower)
    emit(paste0("upper:", scales[scale]), s$upper)
    if (scale == "log-log") {
      q <- quantile(fit, c(0.25, 0.5, 0.75))
      emit("quantile", q$quantile); emit("quantileLower", q$lower); emit("quantileUpper", q$upper)
    }
  }
}
restricted <- function(d, tau, emit) {
  d$w <- if (all(is.na(d$weight))) 1 else d$weight
  d$own <- if (all(is.na(d$cluster))) seq_len(nrow(d)) else d$cluster
  d$y <- outcome(d)
  subjects <<- d # residuals() looks the data up by name
  fit <- survfit(y ~ 1, data = subjects, weights = w)
  table <- summary(fit, rmean = tau)$table
  emit("estimate", table[["rmean"]])
  if (all(is.na(d$weight)) && all(is.na(d$cluster))) emit("standardError", table[["se(rmean)"]])
  else if (all(is.na(d$entry))) {
    # influence of each row on the area under the curve, summed within clusters
    part <- residuals(fit, times = tau, type = "auc", weighted = TRUE, collapse = FALSE)
    emit("standardError", sqrt(sum(rowsum(as.numeric(part), d$own)^2)))
  }
}
# Logarithm of the number of subsets that the discrete likelihood runs through at its heaviest time.
heaviest <- function(d, stratum) {
  at <- unique(data.frame(time = d$time, stratum)[d$event == 1, ])
  if (nrow(at) == 0) return(0)
  max(mapply(function(time, s) {
    own <- stratum == s
    lchoose(sum(own & d$entry < time & d$time >= time), sum(own & d$time == time & d$event == 1))
  }, at$time, at$stratum))
}
rank_tests <- function(d, emit) {
  stratum <- if (all(is.na(d$stratum))) rep(1, nrow(d)) else d$stratum
  if (all(is.na(d$entry))) {
    for (rho in c(0, 0.5, 1)) {
      fit <- survdiff(Surv(d$time, d$event) ~ d$group + strata(stratum), rho = rho)
      total <- function(x) if (is.matrix(x)) rowSums(x) else x
      emit(paste0("chiSquare:", rho), fit$chisq)
      emit(paste0("observed:", rho), total(fit$obs))
      emit(paste0("expected:", rho), total(fit$exp))
    }
  } else if (heaviest(d, stratum) < log(1e4)) {
    # the score test of the discrete (conditional) likelihood is the log-rank test with hypergeometric variance
    fit <- coxph(outcome(d) ~ factor(d$group) + strata(stratum), ties = "exact", control = coxph.control(iter.max = 0))
    emit("chiSquare:0", fit$score)
  }
}
hazards <- function(d, ties, emit) {
  if (sum(d$event) == 0) return(invisible())
  d$y <- outcome(d)
  d$w <- if (all(is.na(d$weight))) 1 else d$weight
  model <- if (all(is.na(d$stratum))) y ~ x1 + x2 + x3 else y ~ x1 + x2 + x3 + strata(stratum)
  control <- coxph.control(eps = 1e-12, iter.max = 60)
  clustered <- !all(is.na(d$cluster))
  ran_out <- FALSE
  fit <- withCallingHandlers(
    if (clustered) coxph(model, data = d, weights = w, ties = ties, control = control, cluster = cluster)
    else coxph(model, data = d, weights = w, ties = ties, control = control, robust = FALSE),
    warning = function(said) if (grepl("Ran out of iterations", conditionMessage(said))) ran_out <<- TRUE)
  emit("ranOut", as.numeric(ran_out))
  missing <- names(fit$coefficients)[is.na(fit$coefficients)]
  if (ran_out && length(missing) > 0 && length(missing) < 3) {
    again <- coxph(update(model, paste(". ~ . -", paste(missing, collapse = " - "))), data = d, weights = w, ties = ties, control = control)
    emit("logLikelihoodAgain", again$loglik[length(again$loglik)])
  }
  known <- function(v) ifelse(is.na(fit$coefficients), NA, v)
  emit("coefficient", fit$coefficients)
  emit("standardError", known(sqrt(diag(if (clustered) fit$naive.var else fit$var))))
  if (clustered) { emit("robustStandardError", known(sqrt(diag(fit$var)))); emit("robustWald", fit$wald.test) }
  else emit("wald", fit$wald.test)
  emit("logLikelihoodNull", fit$loglik[1])
  emit("logLikelihood", fit$loglik[length(fit$loglik)])
  emit("score", fit$score)
}
incidence <- function(d, emit) {
  d$state <- factor(d$cause, 0:2, c("censored", "one", "two"))
  d$id <- seq_len(nrow(d))
  d$y <- outcome(d, d$state)
  fit <- survfit(y ~ 1, data = d, id = id)
  s <- summary(fit, times = fit$time[shown(length(fit$time))], extend = TRUE)
  for (k in c("one", "two")) if (any(d$cause == match(k, c("one", "two")))) {
    emit(paste0("incidence:", k), s$pstate[, match(k, s$states)])
    emit(paste0("standardError:", k), s$std.err[, match(k, s$states)])
  }
}
linear <- function(d, emit) {
  fit <- lm(y ~ x1 + x2 + x3, data = d)
  kept <- !is.na(fit$coefficients)
  full <- function(v) { all <- rep(NA_real_, length(kept)); all[kept] <- v; all }
  emit("coefficient", fit$coefficients)
  if (fit$df.residual < 1) return(invisible())
  x <- model.matrix(fit)[, kept, drop = FALSE]; e <- fit$residuals; h <- hatvalues(fit)
  bread <- chol2inv(qr.R(fit$qr)[seq_len(fit$rank), seq_len(fit$rank), drop = FALSE])
  emit("standardError", full(sqrt(diag(bread) * sum(e^2) / fit$df.residual)))
  f <- summary(fit)$fstatistic
  if (fit$rank > 1) emit("f", f[["value"]])
  if (all(h < 1 - 1e-8)) emit("standardErrorHc3", full(sqrt(diag(bread %*% crossprod(x * e / (1 - h)) %*% bread))))
  if (!all(is.na(d$cluster))) {
    g <- length(unique(d$cluster)); n <- nrow(x)
    factor <- g / (g - 1) * (n - 1) / fit$df.residual
    emit("standardErrorClustered", full(sqrt(factor * diag(bread %*% crossprod(rowsum(x * e, d$cluster)) %*% bread))))
  }
}
means <- function(d, emit) {
  a <- d$y[d$group == 1]; b <- d$y[d$group != 1]
  fit <- t.test(a, b)
  emit("t", fit$statistic); emit("df", fit$parameter); emit("limits", fit$conf.int)
  pair <- t.test(d$y, d$x1, paired = TRUE)
  emit("pairedT", pair$statistic); emit("pairedLimits", pair$conf.int)
}
share <- function(d, emit) emit("limits", suppressWarnings(prop.test(sum(d$event), nrow(d), correct = FALSE))$conf.int)

for (at in seq_len(nrow(sets))) {
  set <- sets$set[at]; d <- rows[[at]]
  attempt(set, "product limit", function(emit) curves(d, emit))
  attempt(set, "restricted mean", function(emit) restricted(d, sets$horizon[at], emit))
  attempt(set, "log-rank", function(emit) rank_tests(d, emit))
  attempt(set, "hazards, Efron ties", function(emit) hazards(d, "efron", emit))
  attempt(set, "hazards, Breslow ties", function(emit) hazards(d, "breslow", emit))
  if (sets$once[at] == 1) {
    attempt(set, "cumulative incidence", function(emit) incidence(d, emit))
    attempt(set, "linear regression", function(emit) linear(d, emit))
    attempt(set, "two means", function(emit) means(d, emit))
    attempt(set, "proportion", function(emit) share(d, emit))
  }
}
close(out)
