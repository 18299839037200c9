# The floor of swap effects: the same model in R, on data that the Go side wrote.
#   Rscript ratings.R DATA.csv COEFFICIENTS.csv TURNS
# DATA.csv: attribute, panelist, version, pot, score, then a 0/1 column a swap.
# Prints seconds for all attributes (median of the turns) and writes coefficients:
# attribute, model, term, estimate, se, and F of the lack of fit.
args <- commandArgs(trailingOnly = TRUE)
data <- read.csv(args[1], check.names = FALSE, stringsAsFactors = TRUE)
turns <- as.integer(args[3])
swaps <- names(data)[-(1:5)]
parts <- split(data, data$attribute)
right <- paste(sprintf("`%s`", swaps), collapse = " + ")
by_swap <- as.formula(paste("score ~ panelist +", right))
by_version <- score ~ panelist + version
by_mixed <- as.formula(paste("score ~", right, "+ (1 | panelist)"))

# Swap effects with the residual of panelist + version, and the lack of fit.
fixed <- function(d) {
  small <- lm(by_swap, data = d)
  large <- lm(by_version, data = d)
  test <- anova(small, large)
  table <- summary(small)$coefficients
  keep <- intersect(c(swaps, sprintf("`%s`", swaps)), rownames(table))
  scale <- summary(large)$sigma / summary(small)$sigma
  list(term = gsub("`", "", keep), estimate = table[keep, 1], se = table[keep, 2] * scale, f = test$F[2])
}

seconds <- function(work) {
  median(replicate(turns, system.time(lapply(parts, work))[["elapsed"]]))
}

out <- do.call(rbind, lapply(names(parts), function(a) {
  x <- fixed(parts[[a]])
  data.frame(attribute = a, model = "lm", term = x$term, estimate = x$estimate, se = x$se, f = x$f)
}))
cat(sprintf("lm %.6f\n", seconds(fixed)))

if (requireNamespace("lme4", quietly = TRUE)) {
  mixed <- function(d) lme4::lmer(by_mixed, data = d, REML = TRUE)
  out <- rbind(out, do.call(rbind, lapply(names(parts), function(a) {
    table <- coef(summary(mixed(parts[[a]])))[-1, , drop = FALSE]
    data.frame(attribute = a, model = "lmer", term = gsub("`", "", rownames(table)), estimate = table[, 1], se = table[, 2], f = NA)
  })))
  cat(sprintf("lmer %.6f\n", seconds(mixed)))
}
write.csv(format(out, digits = 15), args[2], row.names = FALSE, quote = FALSE)
