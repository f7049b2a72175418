//! One thing to fill in: a label, a hint, the control, and beside it what is wrong with it.
//!
//! A control's id is its name; where two forms of a page share a name, one of them passes `id`.

use leptos::prelude::*;

/// What a text field takes; it picks the keyboard on a phone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Kind {
    /// Any one line.
    #[default]
    Text,
    /// A mail address.
    Email,
    /// A telephone number.
    Telephone,
    /// An amount of money or another number with decimals.
    Amount,
    /// A whole number.
    Number,
    /// A time of day, as people write it.
    Clock,
    /// A password that is known.
    Password,
    /// A password that is made up now.
    NewPassword,
    /// Something to look for.
    Search,
    /// A day.
    Date,
}

impl Kind {
    const fn control(self) -> &'static str {
        match self {
            Self::Text | Self::Amount | Self::Number | Self::Clock => "text",
            Self::Email => "email",
            Self::Telephone => "tel",
            Self::Password | Self::NewPassword => "password",
            Self::Search => "search",
            Self::Date => "date",
        }
    }

    const fn keyboard(self) -> Option<&'static str> {
        match self {
            Self::Amount => Some("decimal"),
            Self::Number => Some("numeric"),
            Self::Text
            | Self::Email
            | Self::Telephone
            | Self::Clock
            | Self::Date
            | Self::Password
            | Self::NewPassword
            | Self::Search => None,
        }
    }

    const fn completion(self) -> Option<&'static str> {
        match self {
            Self::Password => Some("current-password"),
            Self::NewPassword => Some("new-password"),
            Self::Search | Self::Amount | Self::Number | Self::Clock | Self::Date => Some("off"),
            Self::Text | Self::Email | Self::Telephone => None,
        }
    }

    const fn is_short(self) -> bool {
        matches!(self, Self::Amount | Self::Number | Self::Clock | Self::Date)
    }
}

/// One line to fill in.
#[component]
pub fn TextField(
    /// What it asks for.
    #[prop(into)]
    label: String,
    /// Its name in the form.
    #[prop(into)]
    name: String,
    /// What stands in it.
    #[prop(optional, into)]
    value: String,
    /// What is wrong with it.
    #[prop(optional_no_strip)]
    error: Option<String>,
    /// A line that explains it.
    #[prop(optional, into)]
    hint: Option<String>,
    /// What it takes.
    #[prop(optional)]
    kind: Kind,
    /// Whether the form needs it.
    #[prop(optional)]
    required: bool,
    /// Whether it is the first to put right or to fill in.
    #[prop(optional)]
    focus: bool,
    /// What a browser may fill in by itself, in the words of HTML's `autocomplete`.
    #[prop(optional, into)]
    complete: Option<String>,
    /// The id of a `datalist` with what may be meant.
    #[prop(optional, into)]
    list: Option<String>,
    /// Its id where the name is taken.
    #[prop(optional, into)]
    id: Option<String>,
) -> impl IntoView {
    let id = id.unwrap_or_else(|| name.clone());
    let about = described_by(&id, hint.is_some(), error.is_some());
    let complete = complete.or_else(|| kind.completion().map(str::to_owned));
    view! {
        <div class="field">
            <label for=id.clone()>{label}</label>
            <Hint id=id.clone() hint />
            <input
                type=kind.control()
                id=id.clone()
                name=name
                value=value
                inputmode=kind.keyboard()
                autocomplete=complete
                list=list
                required=required
                autofocus=focus
                aria-invalid=error.is_some().then_some("true")
                aria-describedby=about
                data-width=kind.is_short().then_some("short")
            />
            <Wrong id error />
        </div>
    }
}

/// Several lines to fill in.
#[component]
pub fn TextArea(
    /// What it asks for.
    #[prop(into)]
    label: String,
    /// Its name in the form.
    #[prop(into)]
    name: String,
    /// What stands in it.
    #[prop(optional, into)]
    value: String,
    /// What is wrong with it.
    #[prop(optional_no_strip)]
    error: Option<String>,
    /// A line that explains it.
    #[prop(optional, into)]
    hint: Option<String>,
    /// Whether the form needs it.
    #[prop(optional)]
    required: bool,
    /// Whether it is the first to put right or to fill in.
    #[prop(optional)]
    focus: bool,
    /// How many lines it shows when empty.
    #[prop(default = 3)]
    rows: u32,
    /// Its id where the name is taken.
    #[prop(optional, into)]
    id: Option<String>,
) -> impl IntoView {
    let id = id.unwrap_or_else(|| name.clone());
    let about = described_by(&id, hint.is_some(), error.is_some());
    view! {
        <div class="field">
            <label for=id.clone()>{label}</label>
            <Hint id=id.clone() hint />
            <textarea
                id=id.clone()
                name=name
                rows=rows
                required=required
                autofocus=focus
                aria-invalid=error.is_some().then_some("true")
                aria-describedby=about
            >
                {between_tags(&value)}
            </textarea>
            <Wrong id error />
        </div>
    }
}

/// One of a few, all in sight: radio buttons.
#[component]
pub fn Choice(
    /// What is chosen.
    #[prop(into)]
    label: String,
    /// Its name in the form.
    #[prop(into)]
    name: String,
    /// Each value with its words.
    options: Vec<(String, String)>,
    /// The value that is chosen already.
    #[prop(optional, into)]
    selected: String,
    /// What is wrong with it.
    #[prop(optional_no_strip)]
    error: Option<String>,
    /// A line that explains it.
    #[prop(optional, into)]
    hint: Option<String>,
    /// Whether the form needs it.
    #[prop(optional)]
    required: bool,
    /// Whether it is the first to put right.
    #[prop(optional)]
    focus: bool,
    /// Its id where the name is taken.
    #[prop(optional, into)]
    id: Option<String>,
) -> impl IntoView {
    let id = id.unwrap_or_else(|| name.clone());
    let about = described_by(&id, hint.is_some(), error.is_some());
    let invalid = error.is_some().then_some("true");
    let options = options
        .into_iter()
        .enumerate()
        .map(|(place, (value, words))| {
            let first = (place == 0).then(|| id.clone());
            let checked = value == selected;
            view! {
                <label class="check">
                    <input
                        type="radio"
                        id=first
                        name=name.clone()
                        value=value
                        checked=checked
                        required=required
                        autofocus=focus && place == 0
                        aria-invalid=invalid
                    />
                    <span>{words}</span>
                </label>
            }
        });
    let options = options.collect_view();
    view! {
        <fieldset class="group" aria-describedby=about>
            <legend>{label}</legend>
            <Hint id=id.clone() hint />
            <div>{options}</div>
            <Wrong id error />
        </fieldset>
    }
}

/// One of a longer list, folded away.
#[component]
pub fn Select(
    /// What is chosen.
    #[prop(into)]
    label: String,
    /// Its name in the form.
    #[prop(into)]
    name: String,
    /// Each value with its words.
    options: Vec<(String, String)>,
    /// The value that is chosen already.
    #[prop(optional, into)]
    selected: String,
    /// What is wrong with it.
    #[prop(optional_no_strip)]
    error: Option<String>,
    /// A line that explains it.
    #[prop(optional, into)]
    hint: Option<String>,
    /// Whether the form needs it.
    #[prop(optional)]
    required: bool,
    /// Whether it is the first to put right.
    #[prop(optional)]
    focus: bool,
    /// Its id where the name is taken.
    #[prop(optional, into)]
    id: Option<String>,
) -> impl IntoView {
    let id = id.unwrap_or_else(|| name.clone());
    let about = described_by(&id, hint.is_some(), error.is_some());
    let options = options.into_iter().map(|(value, words)| {
        let selected = value == selected;
        view! { <option value=value selected=selected>{words}</option> }
    });
    let options = options.collect_view();
    view! {
        <div class="field">
            <label for=id.clone()>{label}</label>
            <Hint id=id.clone() hint />
            <select
                id=id.clone()
                name=name
                required=required
                autofocus=focus
                aria-invalid=error.is_some().then_some("true")
                aria-describedby=about
            >
                {options}
            </select>
            <Wrong id error />
        </div>
    }
}

/// One box to tick; several may share a name.
#[component]
pub fn Tick(
    /// What ticking it says.
    #[prop(into)]
    label: String,
    /// Its name in the form.
    #[prop(into)]
    name: String,
    /// What it sends when ticked.
    #[prop(default = "yes".to_owned(), into)]
    value: String,
    /// Whether it is ticked.
    #[prop(optional)]
    checked: bool,
    /// What is wrong with it.
    #[prop(optional_no_strip)]
    error: Option<String>,
    /// A second, quieter line.
    #[prop(optional, into)]
    hint: Option<String>,
    /// Whether it is the first to put right.
    #[prop(optional)]
    focus: bool,
) -> impl IntoView {
    let id = format!("{name}-{value}");
    let about = described_by(&id, false, error.is_some());
    view! {
        <div class="field">
            <label class="check">
                <input
                    type="checkbox"
                    name=name
                    value=value
                    checked=checked
                    autofocus=focus
                    aria-invalid=error.is_some().then_some("true")
                    aria-describedby=about
                />
                <span>{label} {hint.map(|hint| view! { <small>{hint}</small> })}</span>
            </label>
            <Wrong id error />
        </div>
    }
}

/// Pictures to send along, from files or from the camera.
///
/// A phone that is asked for files may not offer its camera, so a form for the bench has both: two
/// pickers of one name, one of them with `camera`.
#[component]
pub fn PhotoPicker(
    /// What it asks for.
    #[prop(into)]
    label: String,
    /// Its name in the form.
    #[prop(into)]
    name: String,
    /// Whether it opens the camera at once where there is one.
    #[prop(optional)]
    camera: bool,
    /// What is wrong with what was sent.
    #[prop(optional_no_strip)]
    error: Option<String>,
    /// A line that explains it.
    #[prop(optional, into)]
    hint: Option<String>,
    /// Its id where the name is taken.
    #[prop(optional, into)]
    id: Option<String>,
) -> impl IntoView {
    let id = id.unwrap_or_else(|| name.clone());
    let about = described_by(&id, hint.is_some(), error.is_some());
    view! {
        <div class="field photo-picker">
            <label for=id.clone()>{label}</label>
            <Hint id=id.clone() hint />
            <input
                type="file"
                id=id.clone()
                name=name
                accept="image/jpeg,image/png,image/webp"
                capture=camera.then_some("environment")
                multiple=!camera
                aria-invalid=error.is_some().then_some("true")
                aria-describedby=about
            />
            <Wrong id error />
        </div>
    }
}

#[component]
fn Hint(id: String, hint: Option<String>) -> impl IntoView {
    hint.map(|hint| view! { <p class="field-hint" id=format!("{id}-hint")>{hint}</p> })
}

#[component]
fn Wrong(id: String, error: Option<String>) -> impl IntoView {
    error.map(|error| view! { <p class="field-problem" id=format!("{id}-problem")>{error}</p> })
}

fn described_by(id: &str, has_hint: bool, has_error: bool) -> Option<String> {
    match (has_hint, has_error) {
        (true, true) => Some(format!("{id}-hint {id}-problem")),
        (true, false) => Some(format!("{id}-hint")),
        (false, true) => Some(format!("{id}-problem")),
        (false, false) => None,
    }
}

/// What was typed, as text between the tags of a `textarea`: the renderer puts it there as it is, so
/// it is escaped here. A browser drops the first line break; one more keeps what was typed.
fn between_tags(value: &str) -> String {
    let escaped = value
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;");
    if escaped.starts_with('\n') {
        format!("\n{escaped}")
    } else {
        escaped
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use leptos::prelude::*;

    use super::*;

    #[test]
    fn what_is_wrong_stands_beside_its_field() {
        let html = crate::render::page(|| {
            view! {
                <TextField
                    label="Name"
                    name="name"
                    value="\"><script>"
                    hint="As it is called out."
                    error=Some("Please fill this in.".to_owned())
                    focus=true
                />
            }
        });
        assert!(html.contains("<label for=\"name\">Name</label>"), "{html}");
        assert!(html.contains("aria-describedby=\"name-hint name-problem\""));
        assert!(html.contains("aria-invalid=\"true\""));
        assert!(html.contains(" autofocus"));
        assert!(html.contains("<p id=\"name-problem\""), "{html}");
        assert!(html.contains(">Please fill this in.</p>"), "{html}");
        assert!(!html.contains("<script>"));
    }

    #[test]
    fn a_choice_shows_what_was_chosen() {
        let options = vec![
            ("card".to_owned(), "Card".to_owned()),
            ("cash".to_owned(), "Cash".to_owned()),
        ];
        let html = crate::render::page(|| {
            view! { <Choice label="How" name="method" options selected="cash" /> }
        });
        assert!(html.contains("<legend>How</legend>"), "{html}");
        assert!(html.contains("value=\"cash\" checked"), "{html}");
        assert!(!html.contains("value=\"card\" checked"), "{html}");
    }

    #[test]
    fn a_text_area_keeps_its_lines_and_lets_nothing_out() {
        let typed = "one\ntwo &lt; </textarea><script>";
        let html = crate::render::page(|| {
            view! { <TextArea label="Words" name="words" value=typed /> }
        });
        let shown = ">one\ntwo &amp;lt; &lt;/textarea&gt;&lt;script&gt;</textarea>";
        assert!(html.contains(shown), "{html}");
    }
}
