//! What findings would stand the machine down, were they still open.

use super::{Context, LooksAt, RULES, Reason, Seen, Situation, Verdict};

/// The reasons by which these findings stood the machine down, while they were open.
pub(super) fn stood_down(
    situation: &Situation,
    context: &Context,
    findings: &[Seen],
) -> Vec<Reason> {
    if findings.is_empty() {
        return Vec::new();
    }
    let as_if_open = context.with_open(findings);
    // Nothing is mended there, so that the rule on what is mended gives nothing and asks no further.
    let rules = RULES
        .iter()
        .filter(|rule| rule.looks_at == LooksAt::Findings);
    rules
        .flat_map(|rule| (rule.check)(situation, &as_if_open))
        .filter(|reason| reason.weighs == Verdict::StandDown)
        .collect()
}
