# Areas from pROC; variance components from lme4, polished by Newton's steps; the rest written out from the papers, with
# loops over pairs.
source("../../r/records.R"); suppressPackageStartupMessages({library(pROC); library(lme4)}); Z95 <- qnorm(.975)

## ---- areas under the curve ------------------------------------------------------------------
h <- read.csv("haemorrhage.csv"); markers <- c("wfns", "s100b", "ndka")
curve <- function(m) roc(h$poor, h[[m]], quiet = TRUE, direction = "<"); R <- setNames(lapply(markers, curve), markers)
# pROC cuts its limits at 0 and 1; none of these reaches either
areas <- lapply(R, function(r) list(area = as.numeric(auc(r)), se = sqrt(var(r, method = "delong")), ci95 = as.vector(ci.auc(r, method = "delong"))[c(1, 3)]))
comparison <- function(a, b) { t <- roc.test(R[[a]], R[[b]], method = "delong", paired = TRUE); d <- as.numeric(auc(R[[a]]) - auc(R[[b]])); z <- unname(t$statistic)
  list(difference = d, z = z, p = t$p.value, ci95 = d + c(-1, 1)*Z95*d/z) }
youden <- { k <- coords(R$s100b, "best", best.method = "youden", ret = c("threshold", "specificity", "sensitivity", "tp", "fp", "fn", "tn"), transpose = FALSE); as.list(k[1, ]) }
logit_limits <- function(a) list(ci95 = plogis(qlogis(a$area) + c(-1, 1)*Z95*a$se/(a$area*(1 - a$area))))

# Obuchowski 1997, Biometrics 53:567: several fingers a person
f <- read.csv("clustered_fingers.csv")
clustered <- function(value) { ill <- f$injured == 1; X <- value[ill]; Y <- value[!ill]; px <- f$person[ill]; py <- f$person[!ill]; M <- length(X); N <- length(Y)
  V10 <- sapply(X, function(x) mean((x > Y) + .5*(x == Y))); V01 <- sapply(Y, function(y) mean((X > y) + .5*(X == y))); A <- mean(V10); persons <- unique(f$person)
  list(area = A, M = M, N = N, I = length(persons), I10 = length(unique(px)), I01 = length(unique(py)),
    ill = sapply(persons, function(i) sum(V10[px == i] - A)), well = sapply(persons, function(i) sum(V01[py == i] - A))) }
cov_of <- function(a, b) a$I10/((a$I10 - 1)*a$M)*sum(a$ill*b$ill)/a$M + a$I01/((a$I01 - 1)*a$N)*sum(a$well*b$well)/a$N + a$I/(a$I - 1)*(sum(a$ill*b$well) + sum(a$well*b$ill))/(a$M*a$N)
c1 <- clustered(f$first); c2 <- clustered(f$second); s1 <- cov_of(c1, c1); s2 <- cov_of(c2, c2); sd12 <- sqrt(s1 + s2 - 2*cov_of(c1, c2))

## ---- variance components by restricted likelihood ---------------------------------------------
u <- read.csv("unbalanced_raters.csv")
components <- function(form, parts) { m <- suppressMessages(lmer(form, u, REML = TRUE)); n <- nrow(u); y <- u$value; one <- matrix(1, n, 1)
  V <- c(lapply(parts, function(p) outer(u[[p]], u[[p]], "==") + 0), list(diag(n))); vc <- as.data.frame(VarCorr(m)); names(V) <- c(parts, "residual")
  start <- th <- vc$vcov[match(names(V), ifelse(vc$grp == "Residual", "residual", vc$grp))]
  at <- function(th) { S <- Reduce(`+`, Map(`*`, V, th)); Si <- solve(S); x <- as.numeric(t(one) %*% Si %*% one); P <- Si - Si %*% one %*% t(one) %*% Si/x; Py <- as.vector(P %*% y); PV <- lapply(V, function(v) P %*% v)
    list(m2ll = (n - 1)*log(2*pi) + as.numeric(determinant(S)$modulus) + log(x) + sum(y*Py), score = sapply(seq_along(V), function(i) .5*(sum(Py*(V[[i]] %*% Py)) - sum(diag(PV[[i]])))),
      observed = outer(seq_along(V), seq_along(V), Vectorize(function(i, j) sum((V[[i]] %*% Py)*(P %*% (V[[j]] %*% Py))) - .5*sum(PV[[i]]*t(PV[[j]])))),
      expected = outer(seq_along(V), seq_along(V), Vectorize(function(i, j) .5*sum(PV[[i]]*t(PV[[j]]))))) }
  near(at(th)$m2ll, -2*as.numeric(logLik(m)), 1e-9, "likelihood")
  for (k in 1:20) { a <- at(th); st <- solve(a$observed, a$score); th <- th + st; if (max(abs(st)) < 1e-13) break }
  near(th, start, 1e-4, "lme4"); list(th = th, at = at(th)) }
TW <- components(value ~ 1 + (1 | subject) + (1 | rater), c("subject", "rater")); OW <- components(value ~ 1 + (1 | subject), "subject")
named_parts <- function(v) named(v, if (length(v) == 3) c("subjects", "raters", "residual") else c("subjects", "residual"))
# standard errors from the expected information, the steps above from the observed
C <- solve(TW$at$expected); C1 <- solve(OW$at$expected); th <- TW$th; total <- sum(th); share <- th[1]/total; g <- c(total - th[1], -th[1], -th[1])/total^2; sem2 <- th[2] + th[3]

## ---- tests of intraclass correlations against 0.3: McGraw & Wong 1996, Psychol Methods 1:30 ----
S <- as.matrix(read.csv("../agreement/shrout_fleiss.csv")); n <- nrow(S); k <- ncol(S); r0 <- .3
MSR <- k*var(rowMeans(S)); MSC <- n*var(colMeans(S)); MSW <- sum((S - rowMeans(S))^2)/(n*(k - 1)); MSE <- sum((sweep(S - rowMeans(S), 2, colMeans(S) - mean(S)))^2)/((n - 1)*(k - 1))
upper <- function(F, df2) pf(F, n - 1, df2, lower.tail = FALSE)
simple <- function(ratio, df2) list(f = ratio, p = upper(ratio, df2))
mixed_up <- function(a, b) { F <- MSR/(a*MSC + b*MSE); df2 <- (a*MSC + b*MSE)^2/((a*MSC)^2/(k - 1) + (b*MSE)^2/((n - 1)*(k - 1))); list(f = F, df2 = df2, p = upper(F, df2)) }
single <- (1 - r0)/(1 + (k - 1)*r0)
icc <- list(against = arr(r0), one_way = simple(MSR/MSW*single, n*(k - 1)), one_way_average = simple(MSR/MSW*(1 - r0), n*(k - 1)), consistency = simple(MSR/MSE*single, (n - 1)*(k - 1)),
  agreement = mixed_up(k*r0/(n*(1 - r0)), 1 + k*r0*(n - 1)/(n*(1 - r0))), agreement_average = mixed_up(r0/(n*(1 - r0)), 1 + r0*(n - 1)/(n*(1 - r0))))

## ---- limits of agreement ---------------------------------------------------------------------------
o <- read.csv("cardiac_output.csv"); d <- o$first - o$second; m <- as.vector(table(o$subject)); N <- length(d); ns <- length(m)
# pairs read together: Bland & Altman 2007, J Biopharm Stat 17:571; limits recovered by Zou 2013, Stat Methods Med Res 22:630
a <- anova(lm(d ~ factor(o$subject)))$`Mean Sq`; m0 <- (N^2 - sum(m^2))/((ns - 1)*N); between <- (a[1] - a[2])/m0; v <- c(a[1]/m0, (1 - 1/m0)*a[2]); df <- c(ns - 1, N - ns); sd_pairs <- sqrt(sum(v)); bias <- mean(d)
var_bias <- between*sum(m^2)/N^2 + a[2]/N; se_limit <- sqrt(var_bias + Z95^2*sum(2*v^2/df)/(4*sum(v)))
low <- sum(v) - sqrt(sum((v - v*df/qchisq(.975, df))^2)); high <- sum(v) + sqrt(sum((v*df/qchisq(.025, df) - v)^2)); hb <- qt(.975, ns - 1)*sqrt(var_bias)
inner <- sqrt(hb^2 + Z95^2*(sd_pairs - sqrt(low))^2); outer_ <- sqrt(hb^2 + Z95^2*(sqrt(high) - sd_pairs)^2); L <- bias + c(-1, 1)*Z95*sd_pairs
# replicates of a constant value: Bland & Altman 1999, Stat Methods Med Res 8:135
by_subject <- function(x) tapply(x, o$subject, mean); dm <- by_subject(o$first) - by_subject(o$second); w <- function(x) sum((x - ave(x, o$subject))^2)/(N - ns); w1 <- w(o$first); w2 <- w(o$second)
# following the magnitude: Bland & Altman 1999
x <- (o$first + o$second)/2; l <- lm(d ~ x); q <- lm(abs(resid(l)) ~ x); at <- c(3, 5, 7); mid <- as.vector(predict(l, data.frame(x = at))); half <- Z95*sqrt(pi/2)*as.vector(predict(q, data.frame(x = at))); rs <- summary(l)$sigma
# concordance: Lin 1989, Biometrics 45:255, variance as corrected 2000, Biometrics 56:324
mo <- function(a, b) mean((a - mean(a))*(b - mean(b))); sx <- mo(o$first, o$first); sy <- mo(o$second, o$second); sxy <- mo(o$first, o$second); rho <- sxy/sqrt(sx*sy); cc <- 2*sxy/(sx + sy + bias^2); u2 <- bias^2/sqrt(sx*sy)
se_cc <- sqrt(((1 - rho^2)*cc^2*(1 - cc^2)/rho^2 + 2*cc^3*(1 - cc)*u2/rho - cc^4*u2^2/(2*rho^2))/(N - 2))

one <- function(id, data, expected) list(id = id, data = data, tolerance = list(rel = 1e-9, abs = 1e-12), expected = expected)
write_expected(list(topic = "Agreement and accuracy, further cases", software = software("pROC", "lme4"), cases = list(
  one("roc", "haemorrhage.csv", list(areas = areas, comparisons = list(wfns_s100b = comparison("wfns", "s100b"), wfns_ndka = comparison("wfns", "ndka"), ndka_s100b = comparison("ndka", "s100b")), youden_s100b = youden)),
  one("roc_logit", "haemorrhage.csv", lapply(areas, logit_limits)),
  one("roc_clustered", "clustered_fingers.csv", list(first = list(area = c1$area, se = sqrt(s1)), second = list(area = c2$area, se = sqrt(s2)), difference = c1$area - c2$area, se_difference = sd12, p = 2*pnorm(-abs(c1$area - c2$area)/sd12))),
  one("components_two_way", "unbalanced_raters.csv", list(variances = named_parts(th), standard_errors = named_parts(sqrt(diag(C))), minus_two_log_likelihood = TW$at$m2ll, agreement = share, se_agreement = sqrt(as.numeric(g %*% C %*% g)), consistency = th[1]/(th[1] + th[3]),
    sem_agreement = sqrt(sem2), df_agreement = 2*sem2^2/sum(C[2:3, 2:3]))),
  one("components_one_way", "unbalanced_raters.csv", list(variances = named_parts(OW$th), standard_errors = named_parts(sqrt(diag(C1))), minus_two_log_likelihood = OW$at$m2ll)),
  one("icc_against", "shrout_fleiss.csv", icc),
  one("limits_repeated_pairs", "cardiac_output.csv", list(bias = bias, within = a[2], between = between, sd = sd_pairs, sd_naive = sd(d), limits = L, se_limit = se_limit, upper_recovered = L[2] + c(-inner, outer_), lower_recovered = L[1] + c(-outer_, inner))),
  one("limits_replicates", "cardiac_output.csv", list(bias = mean(dm), between = var(dm), within_first = w1, within_second = w2, sd = sqrt(var(dm) + (1 - mean(1/m))*(w1 + w2)))),
  one("limits_by_magnitude", "cardiac_output.csv", list(slope = coef(l)[[2]], p = summary(l)$coefficients[2, 4], residual_sd = rs, at = at, lower = mid - half, upper = mid + half, lower_constant = mid - Z95*rs)),
  one("concordance", "cardiac_output.csv", list(estimate = cc, se = se_cc, ci95 = tanh(atanh(cc) + c(-1, 1)*Z95*se_cc/(1 - cc^2)), correlation = rho)))))
