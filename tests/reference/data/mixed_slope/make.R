# Random intercept and slope: lme4, lmerTest and pbkrtest; profile limits by direct optimisation of lme4's deviance function.
suppressMessages({library(jsonlite); library(lme4); library(lmerTest); library(pbkrtest)})
ct <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = .2, rhoend = 1e-12, maxfun = 1e6), check.conv.grad = "ignore", check.conv.hess = "ignore", check.conv.singular = "ignore", calc.derivs = FALSE)
q <- function(e) suppressMessages(suppressWarnings(e))
block <- function(file, f, joint, limits) { d <- read.csv(file); if (file == "orthodont.csv") { d$female <- +(d$sex == "Female"); d$age_c <- d$age - 11 }
  m <- q(lmer(f, d, control = ct)); l <- q(lmer(f, d, REML = FALSE, control = ct)); s <- q(coef(summary(m, ddf = "Satterthwaite"))); k <- q(coef(summary(m, ddf = "Kenward-Roger")))
  L <- diag(nrow(s))[joint, , drop = FALSE]; jk <- q(contestMD(m, L, ddf = "Kenward-Roger")); js <- q(contestMD(m, L))
  vc <- function(o) { v <- as.data.frame(VarCorr(o)); list(intercept = v$sdcor[1], slope = v$sdcor[2], correlation = v$sdcor[3], residual = v$sdcor[4]) }
  h <- q(lmer(as.formula(gsub("\\(.*\\|", "(1 |", paste(deparse(f), collapse = ""))), d, control = ct))
  o <- list(id = sub(".csv", "", file), coef = unname(fixef(m)), se = unname(s[, 2]), satterthwaite_df = unname(s[, 3]), kenward_roger_se = unname(k[, 2]), kenward_roger_df = unname(k[, 3]), kenward_roger_p = unname(k[, 5]),
    joint_kr = list(f = jk[["F value"]], df = jk$DenDF, p = jk[["Pr(>F)"]]), joint_satterthwaite = list(f = js[["F value"]], df = js$DenDF, p = js[["Pr(>F)"]]), components = vc(m), components_ml = vc(l), log_likelihood = as.numeric(logLik(m)), log_likelihood_ml = as.numeric(logLik(l)), log_likelihood_without_slope = as.numeric(logLik(h)),
    predictions = list(intercept = ranef(m)[[1]][, 1], slope = ranef(m)[[1]][, 2]))
  if (limits) { dev <- q(update(l, devFunOnly = TRUE)); n <- nrow(d); m0 <- deviance(l); best <- getME(l, "theta"); v <- vc(l)
    # deviance with the residual sd free: lme4 profiles sigma out; recover r2 from it, then evaluate at any sigma
    at <- function(th, sg) { b <- dev(th); pp <- get("pp", environment(dev)); rs <- get("resp", environment(dev)); r2 <- rs$wrss() + pp$sqrL(1); pp$ldL2() + n*log(2*pi*sg^2) + r2/sg^2 }
    mini <- function(h, p) { for (i in 1:4) p <- optim(p, h, control = list(reltol = 1e-15, maxit = 20000))$par; h(p) }
    rho0 <- v$correlation; fr <- c(log(v$intercept), log(v$slope), atanh(rho0), log(v$residual)); th <- function(s0, s1, r, sg) c(s0, s1*r, s1*sqrt(1 - r^2))/sg
    dv <- function(p) at(th(exp(p[1]), exp(p[2]), tanh(p[3]), exp(p[4])), exp(p[4])); stopifnot(abs(dv(fr) - m0) < 1e-6)
    lim <- function(j, side) { g <- function(x) mini(function(z) { p <- fr; p[-j] <- z; p[j] <- x; dv(p) }, fr[-j]) - m0 - qchisq(.95, 1); st <- .2; while (g(fr[j] + side*st) < 0 && st < 3) st <- st*1.7; uniroot(g, sort(c(fr[j], fr[j] + side*st)), tol = 1e-9)$root }
    w <- function(j, t) t(c(lim(j, -1), lim(j, 1))); o$profile_ml <- list(intercept = w(1, exp), slope = w(2, exp), correlation = w(3, tanh), residual = w(4, exp)) }
  o }
out <- list(block("sleepstudy.csv", reaction ~ days + (days | subject), 2, TRUE), block("orthodont.csv", distance ~ age_c * female + (age | subject), 2:4, FALSE), block("interior.csv", y ~ t + x + (t | group), 2:3, FALSE), block("boundary.csv", y ~ t + x + (t | group), 2:3, FALSE))
writeLines(toJSON(list(topic = "Linear mixed model with random intercept and slope", software = list(R = as.character(getRversion()), lme4 = as.character(packageVersion("lme4")), lmerTest = as.character(packageVersion("lmerTest")), pbkrtest = as.character(packageVersion("pbkrtest"))), cases = out), digits = 17, auto_unbox = TRUE, pretty = TRUE), "expected.json")
