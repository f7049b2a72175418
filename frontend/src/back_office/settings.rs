//! The shop's settings.

use leptos::prelude::*;
use shared_types::form::settings::{ShopField, weekday};
use shared_types::form::{Fields, FormErrors};
use shared_types::paths;
use shared_types::tax::Rounding;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::{Choice, Kind, Select, TextArea, TextField};
use crate::elements::to_put_right::ToPutRight;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Settings {
    /// Who works on it.
    pub desk: Desk,
    /// What was typed, or the settings as they stand.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<ShopField>,
}

/// The shop's settings.
#[component]
pub fn SettingsPage(props: Settings) -> impl IntoView {
    let wrong = props.errors.iter().count();
    let groups = view! {
        {the_shop(&props)}
        {hours(&props)}
        {prices(&props)}
        {tax(&props)}
        {terms(&props)}
    };
    view! {
        <BackRoom desk=props.desk title="Settings".to_owned() here=Room::Settings>
            <h1>"Settings"</h1>
            <p>"A change counts from now on. What was agreed before keeps its price and its day."</p>
            <p>
                "Who works at the bench, what stands there and how sure a promise is: "
                <a href=paths::hands()>"Hands and stations"</a> "."
            </p>
            <ToPutRight count=wrong />
            <form class="form-rows settings" method="post" action=paths::settings()>
                {groups}
                <div class="acts"><button class="act">"Save the settings"</button></div>
            </form>
        </BackRoom>
    }
}

impl Settings {
    fn typed(&self, field: ShopField) -> String {
        self.fields.one(&field.name()).to_owned()
    }

    fn focus(&self, field: ShopField) -> bool {
        self.errors
            .iter()
            .next()
            .is_some_and(|(first, _)| *first == field)
    }

    fn text(&self, field: ShopField, kind: Kind, label: &str, hint: &str) -> AnyView {
        view! {
            <TextField
                label=label
                name=field.name()
                value=self.typed(field)
                error=self.errors.at(&field)
                hint=hint
                kind=kind
                complete="off"
                focus=self.focus(field)
            />
        }
        .into_any()
    }

    fn lines(&self, field: ShopField, label: &str, hint: &str) -> AnyView {
        view! {
            <TextArea
                label=label
                name=field.name()
                value=self.typed(field)
                error=self.errors.at(&field)
                hint=hint
                focus=self.focus(field)
            />
        }
        .into_any()
    }

    fn choice(&self, field: ShopField, label: &str, options: &[(&str, &str)]) -> AnyView {
        view! {
            <Choice
                label=label
                name=field.name()
                options=owned(options)
                selected=self.typed(field)
                error=self.errors.at(&field)
                focus=self.focus(field)
            />
        }
        .into_any()
    }
}

fn owned(options: &[(&str, &str)]) -> Vec<(String, String)> {
    let options = options.iter();
    options
        .map(|(code, words)| ((*code).to_owned(), (*words).to_owned()))
        .collect()
}

fn the_shop(props: &Settings) -> AnyView {
    view! {
        <fieldset class="group">
            <legend>"The shop"</legend>
            {props.text(ShopField::Name, Kind::Text, "Name", "As on the door.")}
            {props.lines(ShopField::Address, "Address", "As on a letter.")}
            <div class="field-row">
                {props.text(ShopField::Phone, Kind::Telephone, "Telephone", "Where customers ring.")}
                {props.text(ShopField::Email, Kind::Email, "Mail address", "Letters come from it, and answers go to it.")}
            </div>
        </fieldset>
    }
    .into_any()
}

fn hours(props: &Settings) -> AnyView {
    let week: Vec<_> = (0_u8..7)
        .map(|day| {
            let name = weekday(day).to_string();
            let (opens, closes) = (ShopField::Opens(day), ShopField::Closes(day));
            view! {
                <div class="field-row">
                    <TextField
                        label=format!("{name} opens")
                        name=opens.name()
                        value=props.typed(opens)
                        error=props.errors.at(&opens)
                        kind=Kind::Clock
                        focus=props.focus(opens)
                    />
                    <TextField
                        label=format!("{name} closes")
                        name=closes.name()
                        value=props.typed(closes)
                        kind=Kind::Clock
                    />
                </div>
            }
        })
        .collect();
    view! {
        <fieldset class="group">
            <legend>"Hours"</legend>
            <p class="field-hint">
                "Write 9:00 and 17:30; leave both empty for a closed day. The day that we promise is worked out from these hours."
            </p>
            {week}
            {props.lines(ShopField::ClosedDays, "Closed besides", "One day a line, as 2026-12-24.")}
            {props.text(ShopField::Zone, Kind::Text, "Time zone", "Region/City, such as America/Denver.")}
        </fieldset>
    }
    .into_any()
}

fn prices(props: &Settings) -> AnyView {
    let modes = Rounding::ALL.map(|mode| (mode.code().to_owned(), mode.label().to_owned()));
    let tie = ShopField::CashTie;
    view! {
        <fieldset class="group">
            <legend>"Prices"</legend>
            <div class="field-row">
                {props.text(ShopField::Currency, Kind::Text, "Currency", "Three letters, such as USD, EUR or JPY.")}
                {props.text(ShopField::Hourly, Kind::Amount, "An hour at the bench", "A line costs its minutes at this rate, plus material.")}
                {props.text(ShopField::RoundUpTo, Kind::Amount, "Round a line up to", "Such as 0.50; empty leaves it exact.")}
            </div>
            <div class="field-row">
                {props.text(ShopField::Minimum, Kind::Amount, "Least that a pair costs", "A smaller job is topped up to it; what is free stays free. Empty means none.")}
                {props.text(ShopField::Rush, Kind::Amount, "Rush adds, % of labour", "Such as 30; empty where rush costs no more.")}
            </div>
            <div class="field-row">
                {props.text(ShopField::CashStep, Kind::Amount, "Smallest coin", "Where small coins are gone, what is paid in cash is rounded to it. Empty means no rounding.")}
                <Select
                    label="How cash is rounded"
                    name=tie.name()
                    options=modes.to_vec()
                    selected=props.typed(tie)
                    error=props.errors.at(&tie)
                    focus=props.focus(tie)
                />
            </div>
        </fieldset>
    }
    .into_any()
}

fn tax(props: &Settings) -> AnyView {
    let modes = Rounding::ALL.map(|mode| (mode.code().to_owned(), mode.label().to_owned()));
    let rounding = ShopField::TaxRounding;
    view! {
        <fieldset class="group">
            <legend>"Tax"</legend>
            <p class="choice-rule">
                "Whether repair work and material are taxed, and at which rate, is the law of your place. Ask there; the program follows what you set."
            </p>
            <div class="field-row">
                {props.text(ShopField::TaxLabour, Kind::Amount, "Tax on labour, %", "0 where labour is not taxed.")}
                {props.text(ShopField::TaxGoods, Kind::Amount, "Tax on material, %", "Such as 6.25.")}
            </div>
            {props.choice(
                ShopField::TaxBasis,
                "Our prices are",
                &[("added", "without tax; it is added at the end"), ("included", "with tax already in them")],
            )}
            {props.choice(
                ShopField::TaxStep,
                "Tax is rounded",
                &[("per-total", "once, on the whole of a pair"), ("per-line", "on each line")],
            )}
            <Select
                label="How it is rounded"
                name=rounding.name()
                options=modes.to_vec()
                selected=props.typed(rounding)
                error=props.errors.at(&rounding)
                focus=props.focus(rounding)
            />
        </fieldset>
    }
    .into_any()
}

fn terms(props: &Settings) -> AnyView {
    view! {
        <fieldset class="group">
            <legend>"Terms"</legend>
            <p class="choice-rule">
                "Deposits, consent to added work, storage charges and pairs that nobody collects: local law decides. The program reminds; it never says that you may sell or dispose of a pair."
            </p>
            {props.text(ShopField::Deposit, Kind::Amount, "Deposit asked for at taking in, %", "Of the total, such as 20; empty where none is asked for. It is asked for, never a condition of the work; whether you may, and when you give it back, is for local law to decide.")}
            <div class="field-row">
                {props.text(ShopField::AnswerDays, Kind::Number, "Open days to answer", "Then an offer lapses, and you ring.")}
                {props.text(ShopField::TakeBack, Kind::Clock, "Time to take a word back", "Such as 24:00, or until the bench starts.")}
                {props.text(ShopField::Reminders, Kind::Text, "Reminders to collect", "Days after it is ready: 7, 21, 45.")}
            </div>
            {props.lines(ShopField::ClaimWords, "Words under the claim ticket", "What your local rules ask for, such as how long pairs are kept.")}
        </fieldset>
    }
    .into_any()
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::settings::{fields_of, read};
    use shared_types::staff::Role;

    use super::*;
    use crate::fixture;

    #[test]
    fn every_setting_of_the_shop_stands_on_the_page() {
        let mut fields = fields_of(&fixture::shop());
        fields.set(&ShopField::Opens(1).name(), "nine");
        let errors = read(&fields, &fixture::shop()).unwrap_err();
        let names: Vec<String> = [
            ShopField::Name,
            ShopField::Address,
            ShopField::Phone,
            ShopField::Email,
            ShopField::Zone,
            ShopField::Opens(0),
            ShopField::Closes(6),
            ShopField::ClosedDays,
            ShopField::Currency,
            ShopField::Hourly,
            ShopField::RoundUpTo,
            ShopField::TaxLabour,
            ShopField::TaxGoods,
            ShopField::TaxBasis,
            ShopField::TaxStep,
            ShopField::TaxRounding,
            ShopField::CashStep,
            ShopField::CashTie,
            ShopField::Minimum,
            ShopField::Rush,
            ShopField::Deposit,
            ShopField::AnswerDays,
            ShopField::TakeBack,
            ShopField::Reminders,
            ShopField::ClaimWords,
        ]
        .map(ShopField::name)
        .into();
        let props = Settings {
            desk: fixture::desk(Role::Owner),
            fields,
            errors,
        };
        let html = crate::render::page(|| view! { <SettingsPage props /> });
        for name in names {
            assert!(html.contains(&format!("name=\"{name}\"")), "{name}: {html}");
        }
        assert!(html.contains("id=\"opens-1-problem\""), "{html}");
        assert!(html.contains("name=\"tax-basis\" value=\"added\" checked"));
    }
}
