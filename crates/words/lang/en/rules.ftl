### The rules of the verdict, one page each: what it says, why, an example.
### $n: a count

rules-title = The rules of the verdict
rules-intro = Each rule is one page. The worst reason decides.
rule-what = What
rule-why = Why
rule-source = Source
rule-example = Example
