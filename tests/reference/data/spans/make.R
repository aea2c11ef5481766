# Fits of survreg (package survival) to injuries known only between visits: writes expected.csv beside injuries.csv.
# Rscript make.R, in this folder.
library(survival)
rows <- read.csv("injuries.csv")
rows$from <- ifelse(rows$left <= 0, NA, rows$left)
rows$female <- as.integer(rows$sex == "female")
fit <- function(dist) survreg(Surv(from, right, type = "interval2") ~ female, data = rows, dist = dist)
share <- function(one, dist, female, day) psurvreg(day, mean = sum(coef(one) * c(1, female)), scale = one$scale, distribution = dist)
median <- function(one, dist, female) qsurvreg(0.5, mean = sum(coef(one) * c(1, female)), scale = one$scale, distribution = dist)
expected <- do.call(rbind, lapply(c("lognormal", "loglogistic", "weibull"), function(dist) {
  one <- fit(dist)
  data.frame(law = dist, aic = -2 * one$loglik[2] + 2 * 3,
    share_female = share(one, dist, 1, 91), share_male = share(one, dist, 0, 91),
    median_female = median(one, dist, 1), median_male = median(one, dist, 0),
    log_ratio = coef(one)[["female"]], log_ratio_error = sqrt(vcov(one)["female", "female"]))
}))
write.csv(expected, "expected.csv", row.names = FALSE, quote = FALSE)
