//! What happens to a pair, in the words of those who do it.

use anyhow::{Context as _, Result};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::offer::{ACT_PREPARE, OfferField};
use shared_types::form::scope::ScopeField;
use shared_types::paths;
use shared_types::scope::sheet::ChoiceKey;
use shared_types::stage::Stage;
use shared_types::ticket::Construction;

use super::TestApp;
use super::form::Form;
use super::page::Page;
use super::shop::{LIFTS, RIB, SOLES, WELT};

/// A ticket with one pair, as the counter sees it after taking it in.
#[derive(Clone, Debug)]
pub(crate) struct Taken {
    pub(crate) id: String,
    pub(crate) pair: String,
    pub(crate) key: String,
}

impl TestApp {
    /// The form in which Nadia Okafor's boots are taken in for soles and top lifts.
    pub(crate) async fn intake_form(&self) -> Result<Form> {
        let page = self.counter.get(&paths::intake()).await?.expects(200)?;
        let token = page.value_of(&IntakeField::Token.name())?;
        let pair = |field| IntakeField::Pair(0, field).name();
        let service = pair(PairField::Work(ScopeField::Service));
        Ok(Form::new()
            .with(IntakeField::Token.name(), token)
            .with(IntakeField::Name.name(), "Nadia Okafor")
            .with(IntakeField::Email.name(), "nadia@example.com")
            .with(IntakeField::Phone.name(), "555-0199")
            .with(IntakeField::Pairs.name(), "1")
            .with(IntakeField::Act.name(), "take-in")
            .with(pair(PairField::Kind), "lace-up work boots")
            .with(pair(PairField::Colour), "dark green")
            .with(pair(PairField::SizeSystem), "eu")
            .with(pair(PairField::Size), "44")
            .with(pair(PairField::Construction), Construction::Welt270.code())
            .with(pair(PairField::Wrong), "The soles are through at the ball.")
            .with(service.clone(), &self.book[SOLES])
            .with(service, &self.book[LIFTS]))
    }

    /// Takes the boots in.
    pub(crate) async fn takes_boots_in(&self) -> Result<Taken> {
        self.takes_in(self.intake_form().await?).await
    }

    /// Takes in what the form says.
    pub(crate) async fn takes_in(&self, form: Form) -> Result<Taken> {
        let answer = self
            .counter
            .post(&paths::intake(), form)
            .await?
            .expects(303)?;
        let claim = self.counter.follow(&answer).await?.expects(200)?;
        let id = answer
            .location()?
            .split('/')
            .nth(3)
            .context("a ticket")?
            .to_owned();
        Ok(Taken {
            pair: claim.after(&paths::pair(""))?,
            key: claim.after(&format!("{}{}", self.origin, paths::ticket("")))?,
            id,
        })
    }

    /// The bench moves a pair.
    pub(crate) async fn moves(&self, ticket: &Taken, to: Stage) -> Result<()> {
        let form = Form::new().with("to", to.code());
        self.bench
            .post(&paths::move_stage(&ticket.pair), form)
            .await?
            .expects(303)?;
        Ok(())
    }

    /// The offer that the bench makes after teardown: a new welt, or welt and rib.
    pub(crate) fn offer_form(&self) -> Form {
        let choice = |form: Form, key, title: &str, services: &[&str]| {
            let work = |field| OfferField::Work(key, field).name();
            let form = form
                .with(OfferField::Title(key).name(), title)
                .with(work(ScopeField::Keep), "0")
                .with(work(ScopeField::Keep), "1");
            services.iter().fold(form, |form, service| {
                form.with(work(ScopeField::Service), &self.book[service])
            })
        };
        let form = Form::new()
            .with(
                OfferField::Found.name(),
                "The welt is split at the ball of both boots.",
            )
            .with(
                OfferField::IfDeclined.name(),
                "We glue the soles on; they will hold for a season.",
            )
            .with(OfferField::Act.name(), ACT_PREPARE);
        let form = choice(form, ChoiceKey::A, "A new welt", &[WELT]);
        choice(form, ChoiceKey::B, "A new welt and rib", &[WELT, RIB])
    }

    /// Composes, looks and sends; gives the offer's digest.
    pub(crate) async fn offers(&self, ticket: &Taken) -> Result<String> {
        self.sends(ticket, self.offer_form()).await
    }

    /// The same with what the form says.
    pub(crate) async fn sends(&self, ticket: &Taken, form: Form) -> Result<String> {
        let digest = self.prepares(ticket, form).await?;
        let send = Form::new().with("digest", &digest);
        self.bench
            .post(&paths::send_offer(&ticket.pair), send)
            .await?
            .expects(303)?;
        Ok(digest)
    }

    /// Composes and looks; gives the digest of what would be sent.
    pub(crate) async fn prepares(&self, ticket: &Taken, form: Form) -> Result<String> {
        let answer = self
            .bench
            .post(&paths::compose(&ticket.pair), form)
            .await?
            .expects(303)?;
        self.bench
            .follow(&answer)
            .await?
            .expects(200)?
            .value_of("digest")
    }

    /// The counter takes what is due by card and hands the pair over.
    pub(crate) async fn is_collected(&self, ticket: &Taken) -> Result<()> {
        let shop_ticket = paths::shop_ticket(&ticket.id);
        let page = self.counter.get(&shop_ticket).await?.expects(200)?;
        let pay = Form::new()
            .with("amount", page.value_of("amount")?)
            .with("length", page.value_of("length")?)
            .with("method", "card");
        self.counter
            .post(&paths::pay(&ticket.id), pay)
            .await?
            .expects(303)?;
        let hand_over = Form::new()
            .with("pair", &ticket.pair)
            .with("to", "Nadia Okafor");
        self.counter
            .post(&paths::hand_over(&ticket.id), hand_over)
            .await?
            .expects(303)?;
        Ok(())
    }
}

/// What the customer does on the page behind the link.
impl Taken {
    /// Opens the customer's page.
    pub(crate) async fn opens(&self, app: &TestApp) -> Result<Page> {
        app.stranger()?
            .get(&paths::ticket(&self.key))
            .await?
            .expects(200)
    }

    /// Opens an offer.
    pub(crate) async fn opens_offer(&self, app: &TestApp, offer: &str) -> Result<Page> {
        app.stranger()?.get(&paths::offer(&self.key, offer)).await
    }

    /// Gives a word on an offer, on the page as it was at this turn.
    pub(crate) async fn says(
        &self,
        app: &TestApp,
        offer: &str,
        (turn, word): (u32, &str),
    ) -> Result<Page> {
        let form = Form::new()
            .with("word", word)
            .with("turn", turn.to_string());
        app.stranger()?
            .post(&paths::give_word(&self.key, offer), form)
            .await
    }

    /// Takes the word of this turn back.
    pub(crate) async fn takes_back(&self, app: &TestApp, offer: &str, turn: u32) -> Result<Page> {
        let form = Form::new().with("turn", turn.to_string());
        app.stranger()?
            .post(&paths::take_back(&self.key, offer), form)
            .await
    }
}
