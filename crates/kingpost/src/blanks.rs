//! The blanks that come with the program.

macro_rules! blanks {
    ($($name:literal)*) => {
        /// The blanks that come with the program: name and text, in the order of their names.
        pub(crate) const BLANKS: &[(&str, &str)] = &[
            $(($name, include_str!(concat!("../../../blanks/", $name, ".toml"))),)*
        ];
    };
}

blanks! {
    "atv"
    "chainsaw"
    "compact-tractor"
    "mini-excavator"
    "portable-generator"
    "tracked-loader-backhoe"
    "trailer"
    "wheeled-loader-backhoe"
}

/// The text of a blank by its name.
pub(crate) fn text(name: &str) -> Option<&'static str> {
    let mut blanks = BLANKS.iter();
    blanks
        .find(|(known, _)| *known == name)
        .map(|(_, text)| *text)
}
