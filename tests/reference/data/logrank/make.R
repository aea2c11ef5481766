source("../../r/records.R"); source("../../r/curves.R"); rd <- function(f) read.csv(f, check.names = FALSE)
fr <- rd("freireich.csv"); lu <- rd("lung.csv"); bm <- rd("bmt.csv"); la <- rd("larynx.csv"); ve <- rd("veteran.csv")
WT <- list(logrank = "logrank", peto_rho1 = "peto", rho_0.5 = .5, gehan = "gehan", tarone_ware = "tarone", rho0_gamma1 = c(0, 1), rho1_gamma1 = c(1, 1), rho0.5_gamma0.5 = c(.5, .5))
fam <- function(t, s, g, st = NULL, sc = NULL) lapply(WT, function(w) lr_block(t, s, g, st, w, sc))
F <- fam(fr$weeks, fr$relapse, factor(fr$group, c("placebo", "6-MP"))); L <- fam(lu$time, lu$status, lu$sex); l2 <- lu[!is.na(lu$ecog) & !is.na(lu$inst), ]
LS <- fam(l2$time, l2$status, l2$sex, l2$ecog); LI <- fam(l2$time, l2$status, l2$sex, l2$inst)
B <- fam(bm$t_dfs, bm$dfs_event, factor(bm$group, c("ALL", "AML-low", "AML-high"))); La <- fam(la$time, la$death, la$stage, NULL, 1:4)
V <- fam(ve$time, ve$status, ve$trt, ve$celltype); VC <- fam(ve$time, ve$status, ve$celltype)
ex <- "looked up: course notes printing the same package's output"
write_expected(list(topic = "Log-rank family", software = software("survival", "KMsurv"),
  conventions = list(statistic = "observed minus expected with the hypergeometric variance d(n-d)/(n-1); groups in the order listed; z is for the first group (positive: more events than expected)",
    weights = "peto_rho1: S(t-) pooled over groups (left limit, within stratum); rho/gamma: S(t-)^rho (1-S(t-))^gamma; gehan: n at risk; tarone_ware: sqrt(n). Observed and expected are the weighted sums.",
    trend = "scores a: sum a(O-E) / sqrt(a'Va), normal", strata = "O, E, V summed over strata; a stratum with one subject at risk adds no variance"),
  cases = list(
  case("freireich", "freireich.csv", "two groups", list(time = "weeks", event = "relapse", group = "group"), F, list(
    pub("textbook reanalyses of Freireich et al. 1963", "log-rank chi-square", "16.79", F$logrank$chisq), pub("widely printed output for this data set", "Gehan (n-weighted) chi-square", "13.4579", F$gehan$chisq), pub("same", "expected, 6-MP", "19.3", F$logrank$expected[2], ex),
    pub("same", "expected, placebo", "10.7", F$logrank$expected[1], ex), pub("same", "log-rank chi-square", "16.8", F$logrank$chisq, ex))),
  case("lung_sex", "lung.csv", "two groups", NULL, L, list(pub("Documentation output of R package survival", "chi-square by sex", "10.3", L$logrank$chisq))),
  case("lung_sex_strata_ecog", "lung.csv", "two groups, stratified by ecog (rows with ecog and inst present)", NULL, LS),
  case("lung_sex_strata_inst", "lung.csv", "two groups, stratified by inst: 18 small strata", NULL, LI),
  case("bmt_3_groups", "bmt.csv", "three groups", list(time = "t_dfs", event = "dfs_event", group = "group"), B, list(
    pub("Klein & Moeschberger 2003, Section 7.3 (bone marrow transplant)", "log-rank chi-square", "13.8", B$logrank$chisq))),
  case("larynx_stage_trend", "larynx.csv", "four ordered groups with scores 1 to 4", list(time = "time", event = "death", group = "stage"), La),
  case("veteran_trt_strata_celltype", "veteran.csv", "two groups, stratified by cell type", NULL, V), case("veteran_celltype", "veteran.csv", "four groups", NULL, VC))))
