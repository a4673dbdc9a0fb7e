# Values of the statistics by R over random inputs (writes statistics-r.json beside itself):
# Rscript tests/reference/make.R
# Where R has no function for a procedure, the formula is programmed here a second time, from its source.
suppressMessages({ library(jsonlite); library(lme4); library(boot) })
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(FALSE), value = TRUE)))
set.seed(20261125)
cases <- list()
case <- function(name, input, expected) cases[[name]] <<- list(input = input, expected = expected)
r <- function(n, digits = 3, m = 45, s = 3) round(rnorm(n, m, s), digits)

# Describe
x <- r(23)
case("spread", list(x = x), list(mean = mean(x), sd = sd(x), n = length(x)))
case("mean", list(x = x), list(value = mean(x)))
p <- c(0, 0.03, 0.1, 0.25, 0.5, 0.731, 0.9, 1)
case("quantile", list(x = x, p = p), list(types = t(sapply(1:9, function(k) quantile(x, p, type = k, names = FALSE)))))
case("median", list(x = x, even = x[-1]), list(odd = median(x), even = median(x[-1])))
case("mad", list(x = x), list(value = mad(x), raw = mad(x, constant = 1)))
w <- outer(x, x, "+") / 2
case("hodgesLehmann", list(x = x), list(value = median(w[lower.tri(w, TRUE)])))
algA <- function(x) {
  m <- median(x); s <- 1.483 * median(abs(x - m))
  for (i in 1:5000) { y <- pmin(pmax(x, m - 1.5 * s), m + 1.5 * s); m <- mean(y); s <- 1.134 * sd(y) }
  c(m, s)
}
xo <- c(x, 61.5, 30.2)
case("algorithmA", list(x = xo), list(location = algA(xo)[1], scale = algA(xo)[2]))
g <- round(rgamma(17, 2), 4)
mk <- function(k) mean((g - mean(g))^k)
case("moments", list(x = g), list(skewness = mk(3) / mk(2)^1.5,
  skewnessCorrected = mk(3) / mk(2)^1.5 * sqrt(17 * 16) / 15, excessKurtosis = mk(4) / mk(2)^2 - 3))
ts <- as.numeric(arima.sim(list(ar = 0.5), 60))
case("autocorrelation", list(x = ts), list(lag1 = acf(ts, plot = FALSE)$acf[2], lag3 = acf(ts, plot = FALSE)$acf[4]))
sw <- lapply(c(3, 5, 9, 30, 200), function(n) round(rexp(n), 4))
case("shapiroWilk", list(samples = sw), list(statistic = sapply(sw, function(v) shapiro.test(v)$statistic),
  pValue = sapply(sw, function(v) shapiro.test(v)$p.value)))

# Bound
tt <- t.test(x, conf.level = 0.9)
case("meanInterval", list(x = x, level = 0.9), list(mean = mean(x), lower = tt$conf.int[1], upper = tt$conf.int[2]))
case("sdInterval", list(x = x, level = 0.9), list(sd = sd(x), lower = sqrt(22 * var(x) / qchisq(0.95, 22)),
  upper = sqrt(22 * var(x) / qchisq(0.05, 22))))
qi <- function(x, p, level) { # by trying every pair of tails
  n <- length(x); a <- (1 - level) / 2
  l <- max(which(pbinom(0:(n - 1), n, p) <= a)); u <- min(which(pbinom(0:(n - 1), n, p) >= 1 - a))
  c(sort(x)[l + 0], sort(x)[u], pbinom(u - 1, n, p) - pbinom(l - 1, n, p))
}
qm <- qi(x, 0.5, 0.95)
case("quantileInterval", list(x = x), list(lower = qm[1], upper = qm[2], attainedLevel = qm[3], estimate = median(x)))
k <- c(0, 1, 7, 19, 20)
case("proportionInterval", list(successes = k, n = 20), list(
  wilsonLower = sapply(k, function(i) suppressWarnings(prop.test(i, 20, correct = FALSE))$conf.int[1]),
  wilsonUpper = sapply(k, function(i) suppressWarnings(prop.test(i, 20, correct = FALSE))$conf.int[2]),
  exactLower = sapply(k, function(i) binom.test(i, 20)$conf.int[1]),
  exactUpper = sapply(k, function(i) binom.test(i, 20)$conf.int[2])))
k2 <- function(n, p, conf) {
  r0 <- function(z) uniroot(function(h) pnorm(z + h) - pnorm(z - h) - p, c(0, 50), tol = 1e-13)$root
  f <- function(k) integrate(Vectorize(function(z) pchisq((n - 1) * r0(z)^2 / k^2, n - 1, lower.tail = FALSE) *
    dnorm(z, 0, 1 / sqrt(n))), -8 / sqrt(n), 8 / sqrt(n), rel.tol = 1e-10, subdivisions = 500)$value - conf
  uniroot(f, c(0.5, 60), tol = 1e-10)$root
}
case("toleranceFactor", list(n = c(3, 8, 17), coverage = 0.93, confidence = 0.97),
  list(factor = sapply(c(3, 8, 17), k2, p = 0.93, conf = 0.97)))
case("oneSidedToleranceFactor", list(n = c(3, 8, 17), coverage = 0.93, confidence = 0.97),
  list(factor = sapply(c(3, 8, 17), function(n) qt(0.97, n - 1, qnorm(0.93) * sqrt(n)) / sqrt(n))))
case("toleranceInterval", list(x = x, coverage = 0.93, confidence = 0.97), list(
  lower = mean(x) - k2(23, 0.93, 0.97) * sd(x), upper = mean(x) + k2(23, 0.93, 0.97) * sd(x)))
ps <- c(0.8, 0.9, 0.97); cs <- c(0.9, 0.99, 0.95)
nn <- mapply(function(p, g) { n <- 2; while (1 - pbinom(n - 2, n, p, lower.tail = FALSE) < g) n <- n + 1; n }, ps, cs)
case("distributionFreeSize", list(coverage = ps, confidence = cs), list(n = nn))
case("heldShare", list(x = x, confidence = 0.9), list(lower = min(x), upper = max(x), share = qbeta(0.1, 22, 2)))
predict1 <- function(n, m, level) {
  f <- function(r) integrate(Vectorize(function(s) {
    inner <- integrate(function(z) (pnorm(z + r * s) - pnorm(z - r * s))^m * dnorm(z, 0, 1 / sqrt(n)),
      -8 / sqrt(n), 8 / sqrt(n), rel.tol = 1e-10)$value
    inner * 2 * (n - 1) * s * dchisq((n - 1) * s^2, n - 1)
  }), 0, 1 + 9 / sqrt(n - 1), rel.tol = 1e-9, subdivisions = 500)$value - level
  uniroot(f, c(0.5, 60), tol = 1e-9)$root
}
case("predictionFactor", list(n = c(3, 4, 8, 20), further = c(2, 5, 18, 3), level = 0.95),
  list(factor = mapply(predict1, c(3, 4, 8, 20), c(2, 5, 18, 3), 0.95)))
h1 <- qt(0.975, 22) * sd(x) * sqrt(1 + 1 / 23)
case("predictionInterval", list(x = x), list(lower = mean(x) - h1, upper = mean(x) + h1, factor = h1 / sd(x)))
b <- boot(g, function(d, i) mean(d[i]), 2e5)
ci <- boot.ci(b, type = c("perc", "bca"))
case("bootstrapInterval", list(x = g), list(percentile = ci$percent[4:5], bca = ci$bca[4:5], standardError = sd(b$t)))

# Outliers
gr <- function(x) { n <- length(x); i <- which.max(abs(x - mean(x))); G <- abs(x[i] - mean(x)) / sd(x)
  t <- sqrt(G^2 * n * (n - 2) / ((n - 1)^2 - n * G^2))
  tc <- qt(0.05 / (2 * n), n - 2)
  list(statistic = G, critical = (n - 1) / sqrt(n) * sqrt(tc^2 / (n - 2 + tc^2)),
    pValue = min(1, 2 * n * pt(t, n - 2, lower.tail = FALSE)), suspect = i - 1) }
x12 <- c(r(11), 55.7)
case("grubbs", list(x = x12), gr(x12))
ratio2 <- function(x) { o <- order(-abs(x - mean(x))); y <- x[-o[1:2]]; sum((y - mean(y))^2) / sum((x - mean(x))^2) }
sim2 <- replicate(2e5, ratio2(rnorm(12)))
case("grubbsPair", list(x = x12), list(statistic = ratio2(x12), critical = quantile(sim2, 0.05, names = FALSE)))
dix <- function(r, n) n * (n - 1) * integrate(Vectorize(function(v) integrate(function(x) dnorm(x) * dnorm(x + v) *
  (pnorm(x + (1 - r) * v) - pnorm(x))^(n - 2), -Inf, Inf, rel.tol = 1e-10)$value), 0, Inf, rel.tol = 1e-9)$value
s6 <- sort(x12[c(1:6, 12)])
case("dixon", list(x = x12[c(1:6, 12)]), list(statistic = (s6[7] - s6[6]) / (s6[7] - s6[1]),
  pValue = 2 * dix((s6[7] - s6[6]) / (s6[7] - s6[1]), 7)))
esd <- function(x, k, a) { n <- length(x); R <- L <- numeric(k)
  for (i in 1:k) { j <- which.max(abs(x - mean(x))); R[i] <- abs(x[j] - mean(x)) / sd(x); x <- x[-j]
    t <- qt(1 - a / (2 * (n - i + 1)), n - i - 1); L[i] <- (n - i) * t / sqrt((n - i - 1 + t^2) * (n - i + 1)) }
  list(statistic = R, critical = L, number = max(c(0, which(R > L)))) }
x30 <- c(r(28), 60.1, 62.3)
case("generalisedEsd", list(x = x30, most = 5), esd(x30, 5, 0.05))
case("hampel", list(x = x30), list(lower = median(x30) - 3 * mad(x30), upper = median(x30) + 3 * mad(x30),
  outside = which(abs(x30 - median(x30)) > 3 * mad(x30)) - 1))
q <- quantile(x30, c(0.25, 0.75), names = FALSE)
case("tukeyFences", list(x = x30), list(lower = q[1] - 1.5 * diff(q), upper = q[2] + 1.5 * diff(q),
  outside = which(x30 < q[1] - 1.5 * diff(q) | x30 > q[2] + 1.5 * diff(q)) - 1))
v <- round(rchisq(7, 3), 4); fc <- qf(1 - 0.05 / 7, 3, 18)
C <- max(v) / sum(v)
case("cochran", list(variances = v, replicates = 4), list(statistic = C, critical = fc / (fc + 6),
  pValue = min(1, 7 * pf(C * 6 / (1 - C), 3, 18, lower.tail = FALSE))))
gm <- lapply(c(3, 4, 3, 5, 4), r)
mm <- sapply(gm, mean); sp <- sqrt(sum(sapply(gm, function(v) sum((v - mean(v))^2))) / sum(sapply(gm, length) - 1))
th <- qt(0.975, 3)
case("mandel", list(groups = gm), list(h = (mm - mean(mm)) / sd(mm), k = sapply(gm, sd) / sp,
  hCritical = 4 * th / sqrt(5 * (th^2 + 3))))

# Where variance comes from
mls <- function(ms1, d1, ms2, d2, by, a = 0.025) { # (ms1 - ms2)/by
  qfu <- function(p, n, m) qf(1 - p, n, m)
  G1 <- 1 - 1 / qfu(a, d1, Inf); H2 <- 1 / qfu(1 - a, d2, Inf) - 1; F <- qfu(a, d1, d2)
  G12 <- ((F - 1)^2 - G1^2 * F^2 - H2^2) / F
  H1 <- 1 / qfu(1 - a, d1, Inf) - 1; G2 <- 1 - 1 / qfu(a, d2, Inf); f <- qfu(1 - a, d1, d2)
  H12 <- ((1 - f)^2 - H1^2 * f^2 - G2^2) / f
  e <- (ms1 - ms2) / by; A <- ms1 / by; B <- ms2 / by
  c(max(0, e - sqrt(G1^2 * A^2 + H2^2 * B^2 + G12 * A * B)), max(0, e + sqrt(H1^2 * A^2 + G2^2 * B^2 + H12 * A * B)))
}
gw <- function(coef, ms, df, a = 0.025) { # all coefficients positive
  e <- sum(coef * ms); G <- 1 - df / qchisq(1 - a, df); H <- df / qchisq(a, df) - 1
  c(e - sqrt(sum((G * coef * ms)^2)), e + sqrt(sum((H * coef * ms)^2)))
}
ob <- lapply(1:6, function(i) round(rnorm(1, 0, 2) + rnorm(4) + 45, 3))
d <- data.frame(y = unlist(ob), g = factor(rep(1:6, each = 4)))
a <- anova(lm(y ~ g, d))
case("oneWay", list(groups = ob), list(ssBetween = a[1, 2], ssWithin = a[2, 2], F = a[1, 4], pValue = a[1, 5],
  between = (a[1, 3] - a[2, 3]) / 4, interval = mls(a[1, 3], 5, a[2, 3], 18, 4),
  within = gw(1, a[2, 3], 18)))
case("modifiedLargeSample", list(ms = c(a[1, 3], a[2, 3]), dof = c(5, 18), by = 4), list(
  difference = mls(a[1, 3], 5, a[2, 3], 18, 4), sum = gw(c(0.25, 0.75), c(a[1, 3], a[2, 3]), c(5, 18))))
cells <- array(0, c(7, 3, 2)); P <- rnorm(7, 0, 2); O <- rnorm(3); I <- matrix(rnorm(21, 0, 0.8), 7)
for (i in 1:7) for (j in 1:3) cells[i, j, ] <- round(45 + P[i] + O[j] + I[i, j] + rnorm(2, 0, 0.5), 3)
d <- expand.grid(p = factor(1:7), o = factor(1:3), k = 1:2); d$y <- as.vector(cells)
a <- anova(lm(y ~ p * o, d)); ms <- a[, 3]
case("twoWay", list(cells = cells), list(ss = a[, 2], fInteraction = a[3, 4], pInteraction = a[3, 5],
  fRows = ms[1] / ms[3], pRows = pf(ms[1] / ms[3], 6, 12, lower.tail = FALSE),
  rows = c((ms[1] - ms[3]) / 6, mls(ms[1], 6, ms[3], 12, 6)), columns = c((ms[2] - ms[3]) / 14, mls(ms[2], 2, ms[3], 12, 14)),
  interaction = c((ms[3] - ms[4]) / 2, mls(ms[3], 12, ms[4], 21, 2)), error = c(ms[4], gw(1, ms[4], 21)),
  gauge = c(ms[2] / 14 + ms[3] * 6 / 14 + ms[4] / 2, gw(c(1 / 14, 6 / 14, 1 / 2), ms[2:4], c(2, 12, 21)))))
ev <- ms[4]; av <- (ms[2] - ms[3]) / 14; iv <- (ms[3] - ms[4]) / 2; pv <- (ms[1] - ms[3]) / 6; gv <- ev + av + iv
case("gaugeStudy", list(cells = cells, tolerance = 20), list(repeatability = sqrt(ev), reproducibility = sqrt(av),
  interaction = sqrt(iv), gauge = sqrt(gv), part = sqrt(pv), shareOfTotal = sqrt(gv / (gv + pv)),
  shareOfTolerance = 6 * sqrt(gv) / 20, distinctCategories = 1.41 * sqrt(pv / gv)))
d <- expand.grid(k = 1:2, c = 1:3, b = 1:2, a = 1:5)
d$y <- round(rnorm(5, 0, 2)[d$a] + rnorm(10)[(d$a - 1) * 2 + d$b] + rnorm(30)[((d$a - 1) * 2 + d$b - 1) * 3 + d$c] + rnorm(60), 3)
d$A <- factor(d$a); d$B <- factor(d$b); d$C <- factor(d$c)
a <- anova(lm(y ~ A / B / C, d)); ms <- a[, 3]
case("nested", list(y = d$y, a = paste(d$a), b = paste(d$b), c = paste(d$c)), list(ss = a[, 2], dof = a[, 1],
  f = c(ms[1] / ms[2], ms[2] / ms[3], ms[3] / ms[4]), components = c((ms[1] - ms[2]) / 12, (ms[2] - ms[3]) / 6, (ms[3] - ms[4]) / 2, ms[4])))
gp <- lapply(c(2, 3, 2, 4, 3, 2), function(n) round(rnorm(1, 45, 2) + rnorm(n), 3))
d <- data.frame(y = unlist(gp), g = factor(rep(seq_along(gp), lengths(gp)))); a <- anova(lm(y ~ g, d))
n0 <- (16 - sum(lengths(gp)^2) / 16) / 5; sl <- max(0, (a[1, 3] - a[2, 3]) / n0)
case("precision", list(groups = gp), list(mean = mean(d$y), repeatabilitySd = sqrt(a[2, 3]), betweenSd = sqrt(sl),
  reproducibilitySd = sqrt(sl + a[2, 3])))
rt <- matrix(round(rnorm(24, 0, 1), 3), 8) + round(rnorm(8, 5, 1.5), 3)
d <- data.frame(y = as.vector(rt), s = factor(rep(1:8, 3)), j = factor(rep(1:3, each = 8))); a <- anova(lm(y ~ s + j, d))
B <- a[1, 3]; J <- a[2, 3]; E <- a[3, 3]; W <- (a[2, 2] + a[3, 2]) / 16
case("intraclass", list(ratings = rt), list(value = c((B - W) / (B + 2 * W), (B - E) / (B + 2 * E + 3 * (J - E) / 8), (B - E) / (B + 2 * E),
  (B - W) / B, (B - E) / (B + (J - E) / 8), (B - E) / B), p1 = pf(B / W, 7, 16, lower.tail = FALSE)))

# REML: crossed and nested, unbalanced, and one at zero
remlCase <- function(name, d, form, random, fixed = character()) {
  f <- suppressMessages(lmer(form, d, REML = TRUE, control = lmerControl(optCtrl = list(xtol_abs = 1e-12, ftol_abs = 1e-12, maxfun = 1e5))))
  vc <- as.data.frame(VarCorr(f)); names(vc$vcov) <- vc$grp
  case(name, c(list(y = d$y, factors = lapply(d[c(random, fixed)], as.character), fixed = I(fixed))),
    list(components = as.list(vc$vcov), criterion = as.numeric(REMLcrit(f)), mean = as.numeric(fixef(f)[1])))
}
d <- data.frame(unit = paste0("u", sample(1:9, 60, TRUE))); d$y <- round(rnorm(9, 45, 2)[as.integer(sub("u", "", d$unit))] + rnorm(60), 4)
remlCase("remlOneWay", d, y ~ (1 | unit), "unit")
# Profile of the between-unit variance by a dense likelihood.
Z <- model.matrix(~ 0 + unit, d); X <- matrix(1, 60, 1)
dev <- function(sa, se) { V <- sa * tcrossprod(Z) + se * diag(60); Vi <- solve(V); XVX <- t(X) %*% Vi %*% X
  bb <- solve(XVX, t(X) %*% Vi %*% d$y); e <- d$y - X %*% bb
  as.numeric(determinant(V)$modulus + determinant(XVX)$modulus + t(e) %*% Vi %*% e) }
prof <- function(sa) optimize(function(l) dev(sa, exp(l)), c(-3, 3), tol = 1e-10)$objective
best <- optimize(function(l) prof(exp(l)), c(-3, 6), tol = 1e-9)
cut <- best$objective + qchisq(0.95, 1)
case("remlProfile", list(y = d$y, unit = d$unit), list(interval = c(
  uniroot(function(s) prof(s) - cut, c(1e-6, exp(best$minimum)), tol = 1e-9)$root,
  uniroot(function(s) prof(s) - cut, c(exp(best$minimum), 200), tol = 1e-8)$root)))
d <- expand.grid(unit = paste0("u", 1:8), operator = paste0("o", 1:5), k = 1:2)
d$y <- round(rnorm(8, 45, 2)[as.integer(d$unit)] + rnorm(5, 0, 1)[as.integer(d$operator)] + rnorm(nrow(d), 0, 0.7), 4)
d <- d[sort(sample(nrow(d), 61)), ]
remlCase("remlCrossed", d, y ~ (1 | unit) + (1 | operator), c("unit", "operator"))
d$row <- sample(c("top", "home", "bottom"), 61, TRUE)
d$y <- d$y + ifelse(d$row == "home", 1, 0)
d <- d[order(d$row != "bottom"), ]
remlCase("remlFixed", d, y ~ row + (1 | unit) + (1 | operator), c("unit", "operator"), "row")
d <- expand.grid(unit = paste0("u", 1:6), k = 1:4); d$key <- paste0(d$unit, "-", d$k); d <- d[rep(1:24, sample(1:4, 24, TRUE)), ]
d$y <- round(rnorm(6, 45, 2)[as.integer(d$unit)] + rnorm(24, 0, 1.2)[as.integer(factor(d$key))] + rnorm(nrow(d), 0, 0.6), 4)
remlCase("remlNested", d, y ~ (1 | unit) + (1 | key), c("unit", "key"))
d <- data.frame(unit = rep(paste0("u", 1:6), 5)); repeat { d$y <- round(rnorm(30, 45), 4); if (anova(lm(y ~ unit, d))[1, 4] < 0.6) break }
remlCase("remlZero", d, y ~ (1 | unit), "unit")
d <- data.frame(row = sample(c("top", "home", "bottom"), 40, TRUE), hand = sample(c("left", "right"), 40, TRUE))
d$y <- round(45 + (d$row == "home") + 0.4 * (d$hand == "left") + rnorm(40), 3)
m <- lm(y ~ row + hand, d); dr <- drop1(m, test = "F")
case("factorEffects", list(y = d$y, factors = list(row = d$row, hand = d$hand)), list(ss = dr[2:3, 2], F = dr[2:3, 5], pValue = dr[2:3, 6],
  adjusted = p.adjust(dr[2:3, 6], "holm"), residualSd = summary(m)$sigma))
um <- function(n, c) sqrt((1 - n / 26) * (1.4^2 + 0.6^2 / c) / n + n / 26 * 0.6^2 / (n * c) + 0.1^2)
gd <- expand.grid(c = 1:100, n = 1:26); gd$cost <- 15 + gd$n * (4 + gd$c * 0.5); gd <- gd[um(gd$n, gd$c) <= 0.35, ]
bp <- gd[order(gd$cost, gd$n), ][1, ]
case("planning", list(scatter = list(betweenSd = 1.4, repeatSd = 0.6, sharedU = 0.1, population = 26), keys = c(4, 8, 26), cycles = 5,
  wantedU = 0.35, cost = list(study = 15, key = 4, cycle = 0.5)), list(u = um(c(4, 8, 26), 5), plan = c(bp$n, bp$c, bp$cost)))

# Agreement
x1 <- r(20); y1 <- round(1 + 0.98 * x1 + rnorm(20, 0, 0.8), 3); dd <- y1 - x1; z <- qnorm(0.975); tq <- qt(0.975, 19)
pb <- summary(lm(dd ~ I((x1 + y1) / 2)))$coefficients[2, ]
case("blandAltman", list(x = x1, y = y1), list(bias = c(mean(dd), t.test(dd)$conf.int), sd = sd(dd),
  lower = mean(dd) - z * sd(dd) + c(0, -1, 1) * tq * sd(dd) * sqrt(1 / 20 + z^2 / 38), slope = pb[[1]], pSlope = pb[[4]]))
f3 <- lapply(1:12, function(i) round(rnorm(sample(2:4, 1), 40 + i), 3)); s3 <- lapply(1:12, function(i) round(rnorm(sample(1:3, 1), 41 + i), 3))
wv <- function(l) sum(sapply(l, function(v) sum((v - mean(v))^2))) / sum(lengths(l) - 1)
dm <- sapply(s3, mean) - sapply(f3, mean); sr <- sqrt(var(dm) + (1 - mean(1 / lengths(f3))) * wv(f3) + (1 - mean(1 / lengths(s3))) * wv(s3))
case("replicateAgreement", list(first = f3, second = s3), list(bias = mean(dm), sd = sr, lower = mean(dm) - z * sr, interval = {
  vt <- gw(c(1, 1 - mean(1 / lengths(f3)), 1 - mean(1 / lengths(s3))), c(var(dm), wv(f3), wv(s3)), c(11, sum(lengths(f3) - 1), sum(lengths(s3) - 1)))
  hb <- qt(0.975, 11) * sd(dm) / sqrt(12); mean(dm) + z * sr + c(-sqrt(hb^2 + z^2 * (sr - sqrt(vt[1]))^2), sqrt(hb^2 + z^2 * (sqrt(vt[2]) - sr)^2)) }))
ld <- log(y1) - log(x1)
case("ratioAgreement", list(x = x1, y = y1), list(ratio = exp(mean(ld)), lower = exp(mean(ld) - z * sd(ld)), upper = exp(mean(ld) + z * sd(ld))))
dem <- function(x, y, l) { u <- var(y) - l * var(x); b <- (u + sqrt(u^2 + 4 * l * cov(x, y)^2)) / (2 * cov(x, y)); c(b, mean(y) - b * mean(x)) }
jk <- sapply(1:20, function(i) dem(x1[-i], y1[-i], 2)); jse <- apply(jk, 1, function(v) sqrt(19 / 20 * sum((v - mean(v))^2)))
case("deming", list(x = x1, y = y1, errorRatio = 2), list(slope = dem(x1, y1, 2)[1], intercept = dem(x1, y1, 2)[2], slopeError = jse[1],
  interceptError = jse[2], slopeUpper = dem(x1, y1, 2)[1] + qt(0.975, 18) * jse[1]))
ux <- round(runif(20, 0.2, 1), 3); uy <- round(runif(20, 0.2, 1), 3)
obj <- function(b) { w <- 1 / (uy^2 + b^2 * ux^2); a <- sum(w * (y1 - b * x1)) / sum(w); sum(w * (y1 - a - b * x1)^2) }
bo <- optimize(obj, c(0.5, 1.5), tol = 1e-12); w <- 1 / (uy^2 + bo$minimum^2 * ux^2)
case("functionalRelation", list(x = x1, y = y1, ux = ux, uy = uy), list(slope = bo$minimum,
  intercept = sum(w * (y1 - bo$minimum * x1)) / sum(w), chiSquared = bo$objective))
pbk <- function(x, y) { n <- length(x); ij <- combn(n, 2); dx <- x[ij[2, ]] - x[ij[1, ]]; dy <- y[ij[2, ]] - y[ij[1, ]]
  ok <- !(dx == 0 & dy == 0); s <- ifelse(dx == 0, sign(dy) * Inf, dy / dx)[ok]; s <- sort(s[abs(s + 1) > 1e-10]); K <- sum(s < -1); N <- length(s)
  b <- if (N %% 2) s[(N + 1) / 2 + K] else mean(s[N / 2 + K + 0:1]); C <- qnorm(0.975) * sqrt(n * (n - 1) * (2 * n + 5) / 18)
  M1 <- round((N - C) / 2); c(b, s[M1 + K], s[N - M1 + 1 + K], median(y - b * x)) }
case("passingBablok", list(x = x1, y = y1), list(slope = pbk(x1, y1)[1:3], intercept = pbk(x1, y1)[4]))
sxy <- mean((x1 - mean(x1)) * (y1 - mean(y1))); vx <- mean((x1 - mean(x1))^2); vy <- mean((y1 - mean(y1))^2); mu <- mean(x1) - mean(y1)
pc <- 2 * sxy / (vx + vy + mu^2); rr <- sxy / sqrt(vx * vy); uu <- mu^2 / sqrt(vx * vy)
sep <- sqrt(((1 - rr^2) * pc^2 * (1 - pc^2) / rr^2 + 2 * pc^3 * (1 - pc) * uu / rr - 0.5 * pc^4 * uu^2 / rr^2) / 18) / (1 - pc^2)
case("concordance", list(x = x1, y = y1), list(value = pc, lower = tanh(atanh(pc) - z * sep), upper = tanh(atanh(pc) + z * sep), pearson = cor(x1, y1)))
case("scores", list(d = 1.7, a = 0.9, b = 0.5), list(en = 1.7 / sqrt(0.9^2 + 0.5^2)))
kt <- cor.test(x1, y1, method = "kendall"); xt <- round(x1); yt <- round(y1)
kt2 <- suppressWarnings(cor.test(xt, yt, method = "kendall", exact = FALSE))
case("kendall", list(x = x1, y = y1, xt = xt, yt = yt), list(value = kt$estimate, pValue = kt$p.value, tied = kt2$estimate, pTied = kt2$p.value))
x9 <- x1[1:8]; y9 <- sample(y1)[1:8]
case("spearman", list(x = x9, y = y9, xt = xt, yt = yt), list(value = cor(x9, y9, method = "spearman"),
  pValue = cor.test(x9, y9, method = "spearman", exact = TRUE)$p.value, tied = cor(xt, yt, method = "spearman"),
  pTied = cor.test(rank(xt), rank(yt))$p.value))

# Tests
pt1 <- t.test(y1, x1, paired = TRUE)
case("pairedT", list(x = x1, y = y1), list(difference = pt1$estimate, lower = pt1$conf.int[1], upper = pt1$conf.int[2], t = pt1$statistic, pValue = pt1$p.value))
ya <- r(14, 3, 46.5, 2); wt <- t.test(ya, x1); et <- t.test(ya, x1, var.equal = TRUE)
case("twoSampleT", list(x = x1, y = ya), list(lower = wt$conf.int[1], t = wt$statistic, dof = wt$parameter, pValue = wt$p.value,
  pooledT = et$statistic, pooledP = et$p.value))
case("equivalence", list(x = x1, y = y1, margin = 1), list(pLower = t.test(dd, mu = -1, alternative = "greater")$p.value,
  pUpper = t.test(dd, mu = 1, alternative = "less")$p.value, ci = t.test(dd, conf.level = 0.9)$conf.int))
sr1 <- wilcox.test(y1, x1, paired = TRUE, conf.int = TRUE)
dt <- round(2 * dd) / 2; srt <- suppressWarnings(wilcox.test(dt, exact = FALSE, correct = TRUE))
xl <- r(70); yl <- round(xl + rnorm(70, 0.2), 3); srl <- suppressWarnings(wilcox.test(yl, xl, paired = TRUE, exact = FALSE))
case("signedRank", list(x = x1, y = y1, tiedDifferences = dt, xl = xl, yl = yl), list(statistic = sr1$statistic, pValue = sr1$p.value,
  shift = sr1$estimate, lower = sr1$conf.int[1], upper = sr1$conf.int[2], pTiedNormal = srt$p.value, pLarge = srl$p.value))
mw <- wilcox.test(ya, x1, conf.int = TRUE); mwt <- suppressWarnings(wilcox.test(round(ya), round(x1), exact = FALSE))
case("mannWhitney", list(x = x1, y = ya), list(statistic = mw$statistic, pValue = mw$p.value, shift = mw$estimate,
  lower = mw$conf.int[1], upper = mw$conf.int[2], statisticTied = mwt$statistic, pTiedNormal = mwt$p.value))
ks <- ks.test(x1, ya, exact = TRUE); kst <- suppressWarnings(ks.test(round(x1), round(ya), exact = TRUE))
xk <- r(150); yk <- r(120, 3, 45.6); ksl <- ks.test(xk, yk, exact = FALSE)
case("kolmogorovSmirnov", list(x = x1, y = ya, xl = xk, yl = yk), list(statistic = ks$statistic, pValue = ks$p.value,
  statisticTied = kst$statistic, pTied = kst$p.value, statisticLarge = ksl$statistic, pLarge = ksl$p.value))
pv <- round(runif(12)^2, 5)
case("holm", list(p = pv), list(adjusted = p.adjust(pv, "holm")))
case("benjaminiHochberg", list(p = pv), list(adjusted = p.adjust(pv, "BH")))

# Time
cc <- function(n) { d2 <- integrate(function(w) 1 - ptukey(w, n, Inf), 0, Inf, rel.tol = 1e-10)$value
  e2 <- integrate(function(w) 2 * w * (1 - ptukey(w, n, Inf)), 0, Inf, rel.tol = 1e-10)$value; c(sqrt(2 / (n - 1)) * gamma(n / 2) / gamma((n - 1) / 2), d2, sqrt(e2 - d2^2)) }
case("controlConstants", list(n = c(2, 5, 12)), list(c4d2d3 = t(sapply(c(2, 5, 12), cc))))
xs <- r(25); mr <- mean(abs(diff(xs))); sg <- mr * sqrt(pi) / 2
case("individuals", list(x = xs), list(centre = mean(xs), sigma = sg, upper = mean(xs) + 3 * sg, meanMovingRange = mr))
sgp <- lapply(1:8, function(i) r(5)); c5 <- cc(5)[1]; sb <- mean(sapply(sgp, sd)) / c5
case("subgroupChart", list(groups = sgp), list(centre = mean(unlist(sgp)), sigma = sb, upper = mean(unlist(sgp)) + 3 * sb / sqrt(5),
  upperSd = sb * (c5 + 3 * sqrt(1 - c5^2))))
zz <- Reduce(function(z, v) 0.2 * v + 0.8 * z, xs, 45, accumulate = TRUE)[-1]
case("ewma", list(x = xs, target = 45, sigma = 3), list(averages = zz, upper = 45 + 3 * 3 * sqrt(0.2 / 1.8 * (1 - 0.8^(2 * (1:25))))))
cu <- function(x, t, k) { h <- 0; sapply(x, function(v) h <<- max(0, h + v - t - k)) }
case("cusum", list(x = xs, target = 45, sigma = 3), list(high = cu(xs, 45, 1.5), low = cu(-xs, -45, 1.5)))
xr <- round(c(rnorm(40), rnorm(20, 1.2)), 3)
rl <- list(one = which(abs(xr) > 3), nine = Filter(function(i) i >= 9 && abs(sum(sign(xr[(i - 8):i]))) == 9, seq_along(xr)),
  six = Filter(function(i) i >= 6 && (all(diff(xr[(i - 5):i]) > 0) || all(diff(xr[(i - 5):i]) < 0)), seq_along(xr)),
  two = Filter(function(i) abs(xr[i]) > 2 && sum(xr[max(1, i - 2):i] * sign(xr[i]) > 2) >= 2, seq_along(xr)),
  four = Filter(function(i) abs(xr[i]) > 1 && sum(xr[max(1, i - 4):i] * sign(xr[i]) > 1) >= 4, seq_along(xr)))
starts <- function(i) if (length(i) == 0) integer() else i[c(TRUE, diff(i) > 1)] - 1
case("runRules", list(x = xr), list(one = I(rl$one - 1), nine = I(starts(rl$nine)), six = I(starts(rl$six)), two = I(starts(rl$two)), four = I(starts(rl$four))))
dx <- round(runif(30, 0, 400), 1); dy <- round(45 + 0.002 * dx + rnorm(30, 0, 0.4), 3); ml <- summary(lm(dy ~ dx)); cl <- ml$coefficients
case("drift", list(x = dx, y = dy), list(slope = cl[2, 1], slopeError = cl[2, 2], intercept = cl[1, 1], interceptError = cl[1, 2],
  residualSd = ml$sigma, rSquared = ml$r.squared, pValue = cl[2, 4], lower = confint(lm(dy ~ dx))[2, 1]))
xc <- round(c(rnorm(20, 45, 1), rnorm(15, 46.2, 1)), 3)
tk <- sapply(2:33, function(i) abs(t.test(xc[1:i], xc[-(1:i)], var.equal = TRUE)$statistic))
case("changePoint", list(x = xc, nile = as.numeric(Nile)), list(at = which.max(tk) + 1, statistic = max(tk)))
sgn <- sign(xs - median(xs)); sgn <- sgn[sgn != 0]; na <- sum(sgn > 0); nb <- sum(sgn < 0); er <- 2 * na * nb / (na + nb) + 1
vr <- 2 * na * nb * (2 * na * nb - na - nb) / ((na + nb)^2 * (na + nb - 1)); ru <- 1 + sum(diff(sgn) != 0)
case("runsTest", list(x = xs), list(runs = ru, z = (ru - er) / sqrt(vr), pValue = 2 * pnorm(-abs(ru - er) / sqrt(vr))))

# Distributions
xe <- round(xs * 2) / 2
case("ecdf", list(x = xe), list(share = ecdf(xe)(sort(xe)), halfWidth = sqrt(log(2 / 0.05) / 50)))
bwid <- 2 * IQR(xk) / length(xk)^(1 / 3); br <- seq(floor(min(xk) / bwid), floor(max(xk) / bwid) + 1) * bwid
case("histogram", list(x = xk), list(width = bwid, counts = hist(xk, breaks = br, right = FALSE, plot = FALSE)$counts))
bw <- bw.nrd0(xs); pts <- min(xs) - 3 * bw + (0:10) / 10 * (diff(range(xs)) + 6 * bw)
case("kernelDensity", list(x = xs), list(bandwidth = bw, density = sapply(pts, function(p) mean(dnorm(p, xs, bw)))))
xp <- round(12 + runif(60, 0, 8) + rnorm(60, 0, 0.7), 3)
nll <- function(q) -sum(log((pnorm((xp - q[1]) / exp(q[2])) - pnorm((xp - q[1] - 8) / exp(q[2]))) / 8))
op <- optim(c(12, log(0.7)), nll, method = "BFGS", control = list(reltol = 1e-15, maxit = 5000))
op <- optim(op$par, nll, method = "Nelder-Mead", control = list(reltol = 1e-16, maxit = 5000))
case("pollingMixture", list(x = xp, period = 8), list(start = op$par[1], noiseSd = exp(op$par[2]), logLikelihood = -op$value,
  normalLogLikelihood = sum(dnorm(xp, mean(xp), sqrt(mean((xp - mean(xp))^2)), log = TRUE))))
hd <- function(x, p) { n <- length(x); sum(diff(pbeta((0:n) / n, (n + 1) * p, (n + 1) * (1 - p))) * sort(x)) }
xh <- xk[1:40]; yh <- yk[1:35]
bs <- replicate(40000, hd(sample(yh, replace = TRUE), 0.5) - hd(sample(xh, replace = TRUE), 0.5))
case("shiftFunction", list(x = xh, y = yh), list(difference = sapply((1:9) / 10, function(p) hd(yh, p) - hd(xh, p)),
  medianInterval = quantile(bs, c(0.025, 0.975), names = FALSE)))

case("betweenSd", list(x = x, repeatSd = 1.1, repeats = 4), list(sd = sqrt(max(0, var(x) - 1.21 / 4)),
  interval = sqrt(mls(4 * var(x), 22, 1.21, 69, 4))))

write_json(list(
  made = paste0(R.version.string, "; lme4 ", packageVersion("lme4"), "; boot ", packageVersion("boot")),
  command = "Rscript tests/reference/make.R", cases = cases), file.path(here, "statistics-r.json"),
  auto_unbox = TRUE, digits = NA, pretty = FALSE)
