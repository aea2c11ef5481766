source("../../r/records.R"); source("../../r/sample-size.R"); options(warn = -1)
G <- function(f, ...) { g <- expand.grid(..., KEEP.OUT.ATTRS = FALSE); c(as.list(g), list(result = arr(sapply(seq_len(nrow(g)), function(i) do.call(f, as.list(g[i, ])))))) }
L <- function(f, ...) { g <- expand.grid(..., KEEP.OUT.ATTRS = FALSE); lapply(seq_len(nrow(g)), function(i) c(as.list(g[i, ]), list(result = do.call(f, as.list(g[i, ]))))) }
S <- G(events_schoenfeld, hr = c(.5, .6, .75, 1.25, 1.5, 2), alpha = c(.05, .01), power = c(.8, .9), p = c(.5, 1/3)); F <- G(events_freedman, hr = c(.5, .6, .75, 1.5, 2), alpha = .05, power = c(.8, .9), ratio = c(1, 2))
T <- L(n_t, d = c(.2, .5, .8, 1.2), alpha = .05, power = c(.8, .9)); P <- L(n_prop, p1 = c(.1, .5), p2 = c(.2, .75), alpha = .05, power = c(.8, .9))
near(T[[2]]$result$n_per_group_exact, power.t.test(delta = .5, sd = 1, power = .8, strict = TRUE, tol = 1e-10)$n, 1e-6); near(n_prop(.5, .75, .05, .9)$pooled_variance, power.prop.test(p1 = .5, p2 = .75, power = .9, tol = 1e-10)$n, 1e-6)
W <- L(n_wilson, p = c(.05, .2, .5, .9), width = c(.1, .2, .3)); pm <- function(src, q, s, v) Map(function(a, b, c) pub(src, a, b, c), q, s, unlist(v))
pat <- { l1 <- log(2)/12; hr <- .6; D <- events_schoenfeld(hr); p1 <- event_prob(l1, 12, 12); p2 <- event_prob(l1*hr, 12, 12); list(median_control = 12, hr = hr, accrual = 12, follow_up = 12, events = D, probability_control = p1, probability_treated = p2, total_subjects = D/((p1 + p2)/2)) }
# groups of unequal size: by turning the power round, not by the formula for the size
n_of <- function(power, f) uniroot(function(l) f(exp(l)) - power, c(log(2), log(1e6)), tol = 1e-14)$root
U <- function(p1, p2, ratio, power) { f <- function(n) { pb <- (p1 + ratio*p2)/(1 + ratio); pnorm((abs(p1 - p2)*sqrt(n) - qnorm(.975)*sqrt((1 + 1/ratio)*pb*(1 - pb)))/sqrt(p1*(1 - p1) + p2*(1 - p2)/ratio)) }; exp(n_of(power, f)) }
M <- function(d, ratio, power) exp(n_of(power, function(n) power_t(n, ratio*n, d)))
# returns seen: the integral over the day of entry of the chance that a return comes first and before the end of the study
seen <- function(rate, other, accrual, follow) { g <- function(s) sapply(s, function(x) integrate(function(t) rate*exp(-(rate + other)*t), 0, follow + x, rel.tol = 1e-12)$value); if (accrual == 0) g(0) else integrate(g, 0, accrual, rel.tol = 1e-11)$value/accrual }
# of two normal means with known deviations: the power of the z-test, its far tail left out
Z <- function(d, s1, s2, ratio, power) exp(n_of(power, function(n) pnorm(d/sqrt(s1^2/n + s2^2/(ratio*n)) - qnorm(.975))))
I <- function(r, k, w) 1 + 8*qnorm(.975)^2*(1 - r)^2*(1 + (k - 1)*r)^2/(k*(k - 1)*w^2)
# design effect: the variance of a mean whose clusters of unequal size are each a block of correlation
E <- function(sizes, r) { n <- sum(sizes); V <- sum(sizes + sizes*(sizes - 1)*r)/n^2; V*n }
sizes <- c(1, 1, 1, 2, 2, 3, 4)
write_expected(list(topic = "Sample size and precision", software = software(), conventions = list(events = "not rounded; a plan rounds up", schoenfeld = "(z_(1-alpha/2)+z_power)^2 / (p(1-p) log(hr)^2), p = share in one group", freedman = "(z+z)^2 (1 + ratio hr)^2 / (ratio (1-hr)^2), ratio = n2/n1", t = "exact noncentral t, both tails counted; the usual shortcut drops the far tail (differs in the 6th digit or later except for tiny d)", wilson = "full width of the Wilson interval when the observed proportion equals p exactly (x = np need not be whole)"),
  cases = list(case("events_schoenfeld", "none", "events for a log-rank test", NULL, S, list(pub("formula of Schoenfeld 1983, Biometrics 39:499", "hr 2, alpha .05, power .8, 1:1 (rounded up 66)", "65.3", events_schoenfeld(2), "by hand: 7.849 x 4 / 0.4805")), rel = 1e-12), case("events_freedman", "none", "events for a log-rank test", NULL, F, list(pub("formula of Freedman 1982, Stat Med 1:121", "hr 2, alpha .05, power .8, 1:1 (rounded up 71)", "70.6", events_freedman(2), "by hand: 7.849 x 9")), rel = 1e-12),
    case("power_from_events", "none", "power of a log-rank test", NULL, G(power_schoenfeld, events = c(20, 50, 100), hr = c(.5, .7)), rel = 1e-10), case("subjects_exponential", "none", "subjects from events, exponential times, uniform accrual", NULL, pat, rel = 1e-12),
    case("two_sample_t", "none", "n per group", NULL, T, pm("Cohen 1988; R documentation", c("d .5, power .8", "d .2, power .8", "d .8, power .8"), c("63.766", "393.4", "25.52"), c(T[[2]]$result$n_per_group_exact, T[[1]]$result$n_per_group_exact, T[[3]]$result$n_per_group_exact)), rel = 1e-7), case("paired_t", "none", "n pairs", NULL, L(n_paired, d = c(.3, .5, 1), alpha = .05, power = c(.8, .9)), rel = 1e-7),
    case("two_proportions", "none", "n per group", NULL, P, pm("R documentation example", ".50 against .75, power .90", "76.7", n_prop(.5, .75, .05, .9)$pooled_variance), rel = 1e-10), case("wilson_precision", "none", "n for a given width", NULL, W, rel = 1e-9),
    case("unequal_shares", "none", "n of the first group", NULL, L(U, p1 = c(.5, .6), p2 = .8, ratio = c(.5, 2), power = c(.8, .9)), rel = 1e-9),
    case("unequal_means", "none", "n of the first group", NULL, L(M, d = c(.4, .8), ratio = c(.5, 3), power = .8), rel = 1e-7),
    case("returns_seen", "none", "part of the people whose return is seen", NULL, L(seen, rate = log(2)/c(10, 20), other = c(0, .01), accrual = c(0, 52), follow = c(13, 26)), rel = 1e-9),
    case("difference_of_means", "none", "n of the first group", NULL, L(Z, d = c(7, 14), s1 = 40, s2 = c(40, 60), ratio = c(1, 2), power = c(.8, .9)), rel = 1e-9),
    case("intraclass_precision", "none", "n of subjects (formula only)", NULL, L(I, r = c(.5, .8), k = c(2, 3), w = c(.1, .2)), rel = 1e-12),
    case("design_effect", "none", "variance of a mean over that of independent values", NULL, list(sizes = arr(sizes), intraclass = arr(c(.1, .5)), result = arr(c(E(sizes, .1), E(sizes, .5)))), rel = 1e-12))))
