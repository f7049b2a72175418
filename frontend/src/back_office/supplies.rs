//! Supplies with what they cost the shop, and one of them: for the owner's eyes only.

use leptos::prelude::*;
use shared_types::form::supply::SupplyField;
use shared_types::form::{Fields, FormErrors};
use shared_types::id::SupplyId;
use shared_types::paths;
use shared_types::supply::SupplyUnit;
use shared_types::supply::kept::Supply;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::{Kind, Select, TextField};
use crate::elements::to_put_right::ToPutRight;

/// Props of the list.
#[derive(Clone, Debug)]
pub struct SuppliesView {
    /// Who works on it.
    pub desk: Desk,
    /// By name.
    pub supplies: Vec<Supply>,
    /// What was typed, and what an hour at the bench costs.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<SupplyField>,
}

/// Supplies as a table, with a form for a new one and one for the hour at the bench.
#[component]
pub fn SuppliesPage(props: SuppliesView) -> impl IntoView {
    let SuppliesView {
        desk,
        supplies,
        fields,
        errors,
    } = props;
    let list = if supplies.is_empty() {
        view! {
            <div class="empty">
                <p><b>"There are no supplies yet."</b></p>
                <p>"Begin with what costs most: sole leather, rubber, welting, top lifts."</p>
            </div>
        }
        .into_any()
    } else {
        table(&supplies)
    };
    let hour = SupplyField::BenchHour;
    view! {
        <BackRoom desk title="Supplies".to_owned() here=Room::Prices>
            <div class="page-head">
                <h1>"Supplies"</h1>
                <p><a href=paths::prices()>"Price book"</a></p>
            </div>
            <p>
                "What you pay, what is cut away, and what you add. Customers see the price of sale and the "
                "quantity with its waste; cost and what you add are seen by you alone. "
                "What was agreed before a change keeps its price."
            </p>
            {list}
            <section>
                <h2>"An hour at the bench"</h2>
                <form class="form-rows" method="post" action=paths::bench_hour()>
                    <TextField
                        label="What it costs you"
                        name=hour.name()
                        value=fields.one(hour.name()).to_owned()
                        error=errors.at(&hour)
                        hint="Wages and what the room and the machines cost, for one hour of work. With it, each pair shows you what it leaves. Nobody else sees it."
                        kind=Kind::Amount
                        focus=errors.at(&hour).is_some()
                    />
                    <div class="acts"><button class="act">"Save"</button></div>
                </form>
            </section>
            <section>
                <h2>"Add a supply"</h2>
                <ToPutRight count=errors.iter().filter(|(field, _)| **field != hour).count() />
                <form class="form-rows" method="post" action=paths::supplies()>
                    {supply_fields(&fields, &errors)}
                    <div class="acts"><button class="act">"Add to the supplies"</button></div>
                </form>
            </section>
        </BackRoom>
    }
}

fn table(supplies: &[Supply]) -> AnyView {
    let rows: Vec<_> = supplies.iter().map(row).collect();
    view! {
        <div class="ledger-frame">
            <table class="ledger" aria-label="Supplies">
                <caption class="visually-hidden">"Supplies by name"</caption>
                <thead>
                    <tr>
                        <th scope="col">"Supply"</th>
                        <th scope="col" data-align="end">"Costs you"</th>
                        <th scope="col" data-align="end">"Cut away"</th>
                        <th scope="col" data-align="end">"You add"</th>
                        <th scope="col" data-align="end">"Price of sale"</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
    .into_any()
}

fn row(supply: &Supply) -> impl IntoView + use<> {
    let each = supply.unit.each();
    let price = match supply.price() {
        Ok(price) => format!("{price} {each}"),
        Err(problem) => problem.to_string(),
    };
    view! {
        <tr>
            <th scope="row"><a href=paths::supply(supply.id)>{supply.name.to_string()}</a></th>
            <td data-align="end" data-label="Costs you">{format!("{} {each}", supply.cost)}</td>
            <td data-align="end" data-label="Cut away">{format!("{} %", supply.waste)}</td>
            <td data-align="end" data-label="You add">{format!("{} %", supply.markup)}</td>
            <td data-align="end" data-label="Price of sale">{price}</td>
        </tr>
    }
}

/// Props of one supply.
#[derive(Clone, Debug)]
pub struct SupplyView {
    /// Who works on it.
    pub desk: Desk,
    /// Which supply.
    pub id: SupplyId,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<SupplyField>,
}

/// One supply to change; the button `act=retire` takes it out of the list.
#[component]
pub fn SupplyPage(props: SupplyView) -> impl IntoView {
    let SupplyView {
        desk,
        id,
        fields,
        errors,
    } = props;
    view! {
        <BackRoom desk title="A supply".to_owned() here=Room::Prices>
            <div class="page-head">
                <h1>"Change a supply"</h1>
                <p><a href=paths::supplies()>"Supplies"</a></p>
            </div>
            <p>"New tickets and offers take the change. What was agreed before keeps its price."</p>
            <ToPutRight count=errors.iter().count() />
            <form class="form-rows" method="post" action=paths::supply(id)>
                {supply_fields(&fields, &errors)}
                <div class="acts"><button class="act" name="act" value="save">"Save"</button></div>
            </form>
            <section>
                <h2>"No longer kept"</h2>
                <p>"Services can’t take it any more. Tickets that have it keep it."</p>
                <form method="post" action=paths::supply(id)>
                    <button class="act" data-act="plain" name="act" value="retire">
                        "Take it out of the supplies"
                    </button>
                </form>
            </section>
        </BackRoom>
    }
}

fn supply_fields(fields: &Fields, errors: &FormErrors<SupplyField>) -> AnyView {
    let first = errors.iter().next().map(|(field, _)| *field);
    let typed = |field: SupplyField| fields.one(field.name()).to_owned();
    let error = |field: SupplyField| errors.at(&field);
    let focus = |field: SupplyField| first == Some(field);
    let units = SupplyUnit::ALL.map(|unit| (unit.code().to_owned(), unit.label().to_owned()));
    view! {
        <div class="field-row">
            <TextField
                label="Name"
                name=SupplyField::Name.name()
                value=typed(SupplyField::Name)
                error=error(SupplyField::Name)
                hint="Customers read it when they open an amount."
                complete="off"
                focus=focus(SupplyField::Name)
            />
            <Select
                label="Bought and used by the"
                name=SupplyField::Unit.name()
                options=units.to_vec()
                selected=typed(SupplyField::Unit)
                error=error(SupplyField::Unit)
                focus=focus(SupplyField::Unit)
            />
        </div>
        <div class="field-row">
            <TextField
                label="What one costs you"
                name=SupplyField::Cost.name()
                value=typed(SupplyField::Cost)
                error=error(SupplyField::Cost)
                hint="Take a unit that costs at least some cents."
                kind=Kind::Amount
                focus=focus(SupplyField::Cost)
            />
            <TextField
                label="Cut away, in percent"
                name=SupplyField::Waste.name()
                value=typed(SupplyField::Waste)
                error=error(SupplyField::Waste)
                hint="Charged on top of what gets into the pair."
                kind=Kind::Number
                focus=focus(SupplyField::Waste)
            />
            <TextField
                label="You add, in percent"
                name=SupplyField::Markup.name()
                value=typed(SupplyField::Markup)
                error=error(SupplyField::Markup)
                hint="On the cost; 50 makes 10.00 of sale from 6.67."
                kind=Kind::Number
                focus=focus(SupplyField::Markup)
            />
        </div>
    }
    .into_any()
}
