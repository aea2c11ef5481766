# One-stage answers over sites: strata of site and grade. Package survival for fits and curves; averages over strata by definition.
suppressMessages({library(survival); library(jsonlite)})
d <- read.csv("rows.csv"); tight <- coxph.control(eps = 1e-13, toler.chol = 1e-14, iter.max = 60, outer.max = 500)
smallest <- 5; day <- 70; horizon <- 182
hazard <- function(data, f) { m <- coxph(f, data, ties = "efron", control = tight); b <- unname(coef(m)[1]); se <- sqrt(vcov(m)[1, 1])
  list(n = nrow(data), ratio = exp(b), se = se, lower = exp(b - qnorm(.975)*se), upper = exp(b + qnorm(.975)*se)) }
enough <- function(data, key) { k <- paste(key); keep <- names(which(tapply(data$group, k, function(g) min(sum(g == 1), sum(g == 0))) >= smallest)); data[k %in% keep, ] }
# share back by the day and restricted mean with Greenwood variances, in each stratum, at the mix of both groups together
curve <- function(data) { s <- survfit(Surv(time, event) ~ 1, data); at <- summary(s, times = day, extend = TRUE); m <- summary(s, rmean = horizon)$table
  c(1 - at$surv, at$std.err^2, m[["rmean"]], m[["se(rmean)"]]^2) }
standardised <- function(data) { k <- paste(data$site, data$grade); w <- table(k)/nrow(data); s <- names(w)
  r <- sapply(s, function(one) { x <- data[k == one, ]; curve(x[x$group == 1, ]) - curve(x[x$group == 0, ])*c(1, -1, 1, -1) })
  list(n = nrow(data), strata = length(s), share = sum(w*r[1, ]), share_se = sqrt(sum(w^2*r[2, ])), mean = sum(w*r[3, ]), mean_se = sqrt(sum(w^2*r[4, ]))) }
answer <- function(data) { used <- enough(data, paste(data$site, data$grade)); list(hazard = hazard(used, Surv(time, event) ~ group + strata(site, grade)), standardised = standardised(used)) }
of_grade <- enough(d, d$grade)
frailty <- coxph(Surv(time, event) ~ group + strata(grade) + frailty(site, distribution = "gamma", method = "em", eps = 1e-11), of_grade, ties = "efron", control = tight)
sites <- unique(d$site)
alone <- lapply(sites, function(s) { x <- d[d$site == s, ]; used <- enough(x, x$grade)
  c(list(site = s, share = 1 - summary(survfit(Surv(time, event) ~ 1, x), times = day)$surv), if (nrow(used) > 0) list(hazard = hazard(used, Surv(time, event) ~ group + strata(grade)))) })
write_json(list(software = paste(R.version.string, "survival", packageVersion("survival")), joined = answer(d), alone = alone,
  without = lapply(sites, function(s) c(list(site = s), answer(d[d$site != s, ]))),
  frailty = list(n = nrow(of_grade), ratio = exp(unname(coef(frailty)[1])), variance = frailty$history[[1]]$theta)), "expected.json", auto_unbox = TRUE, digits = NA, pretty = TRUE)
