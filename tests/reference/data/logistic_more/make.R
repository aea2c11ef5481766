# Weighted and clustered logistic regression, predictions, multinomial regression on the low birth weight data.
suppressMessages({library(jsonlite); library(sandwich); library(nnet)})
d <- read.csv("birthwt.csv"); d$w <- d$ftv + 0.5; d$race <- d$race_black + 2*d$race_other
g <- suppressWarnings(glm(low ~ age + lwt + smoke, binomial, d, weights = w, epsilon = 1e-15, maxit = 100)); V <- summary(g)$cov.unscaled
R <- vcovCL(g, cluster = d$age, type = "HC0", cadjust = TRUE)
new <- data.frame(age = c(20, 35), lwt = c(110, 150), smoke = c(1, 0)); p <- predict(g, new, se.fit = TRUE)
X <- model.matrix(g); y <- d$low; null <- sum(d$w*y)/sum(d$w); u <- colSums(d$w*(y - null)*X); I <- null*(1 - null)*crossprod(X, d$w*X)
# multinomial: Newton from nnet's end, until the step is nothing
m <- multinom(race ~ age + lwt + smoke, d, trace = FALSE, maxit = 2000, reltol = 1e-15); b <- as.vector(t(coef(m))); Y <- cbind(d$race == 1, d$race == 2)
mn <- function(b, w, Y) { B <- matrix(b, ncol = 2); e <- exp(X %*% B); P <- e/(1 + rowSums(e)); U <- as.vector(t(X) %*% (w*(Y - P))); H <- matrix(0, 8, 8); for (i in 1:2) for (j in 1:2) H[4*(i-1) + 1:4, 4*(j-1) + 1:4] <- t(X) %*% (w*((i == j)*P[, i] - P[, i]*P[, j])*X); list(U = U, H = H, P = P, ll = sum(w*log(cbind(1 - rowSums(P), P)[cbind(seq_along(y), d$race + 1)]))) }
fit <- function(b, w) { for (i in 1:50) { q <- mn(b, w, Y); b <- b + solve(q$H, q$U) }; q <- mn(b, w, Y); c(q, list(b = b)) }
q1 <- fit(b, rep(1, nrow(d))); stopifnot(abs(q1$ll - as.numeric(logLik(m))) < 1e-6); q2 <- fit(b, d$w)
S <- do.call(cbind, lapply(1:2, function(k) d$w*(Y[, k] - q2$P[, k])*X)); M <- rowsum(S, d$age); G <- nrow(M); RC <- solve(q2$H) %*% crossprod(M) %*% solve(q2$H)*G/(G - 1)
m0 <- logLik(multinom(race ~ 1, d, trace = FALSE, reltol = 1e-15))
out <- list(weighted = list(coef = unname(coef(g)), se = unname(sqrt(diag(V))), robust_se = unname(sqrt(diag(R))), log_likelihood = sum(d$w*(y*log(fitted(g)) + (1 - y)*log1p(-fitted(g)))), score = as.vector(u %*% solve(I, u)), wald = as.vector(coef(g)[-1] %*% solve(V[-1, -1], coef(g)[-1])), robust_wald = as.vector(coef(g)[-1] %*% solve(R[-1, -1], coef(g)[-1])), predicted_log_odds = unname(p$fit), predicted_se = unname(sqrt(rowSums((model.matrix(~ age + lwt + smoke, new) %*% V)*model.matrix(~ age + lwt + smoke, new))))),
  multinomial = list(coef = q1$b, se = sqrt(diag(solve(q1$H))), log_likelihood = q1$ll, log_likelihood_null = as.numeric(m0), first_row = c(1 - sum(q1$P[1, ]), q1$P[1, ])), multinomial_weighted = list(coef = q2$b, se = sqrt(diag(solve(q2$H))), robust_se = sqrt(diag(RC)), log_likelihood = q2$ll))
writeLines(toJSON(list(topic = "Logistic and multinomial regression with weights and clusters", software = list(R = as.character(getRversion()), sandwich = as.character(packageVersion("sandwich")), nnet = as.character(packageVersion("nnet"))), cases = list(list(id = "birthwt", expected = out))), digits = 17, auto_unbox = TRUE, pretty = TRUE), "expected.json")
