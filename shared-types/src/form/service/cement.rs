//! The part of a service's form that tells of cement.

use super::ServiceField;
use crate::cement::{Cement, CementProblem};
use crate::form::{Fields, FormErrors, Problem};
use crate::minutes::Minutes;

/// Its three fields.
const FIELDS: [ServiceField; 3] = [
    ServiceField::Dries,
    ServiceField::StaysOpen,
    ServiceField::Joining,
];

/// What they hold as a service stands.
pub(super) fn fields_of(cement: Cement) -> [(ServiceField, String); 3] {
    let [dries, open, joining] = FIELDS;
    [
        (dries, cement.dries()),
        (open, cement.open()),
        (joining, cement.joining()),
    ]
    .map(|(field, minutes)| (field, minutes.get().to_string()))
}

/// Reads them; all empty means none. The `usual` minutes of the service are known if they can be
/// read.
pub(super) fn read(
    fields: &Fields,
    usual: Option<Minutes>,
) -> Result<Option<Cement>, FormErrors<ServiceField>> {
    let typed = FIELDS.map(|field| fields.one(&field.name()).trim().to_owned());
    if typed.iter().all(String::is_empty) {
        return Ok(None);
    }
    let mut errors = FormErrors::default();
    let mut read = [None; 3];
    for ((read, field), text) in read.iter_mut().zip(FIELDS).zip(&typed) {
        *read = errors.take(field, Minutes::parse(text));
    }
    let [Some(dries), Some(open), Some(joining)] = read else {
        return Err(errors);
    };
    let cement = Cement::new(dries, open, joining).and_then(|cement| {
        usual.map_or(Ok(()), |usual| cement.parts_of(usual).map(|_| ()))?;
        Ok(cement)
    });
    cement.map(Some).map_err(|problem| {
        let field = match problem {
            CementProblem::ClosesBeforeItDries => ServiceField::StaysOpen,
            CementProblem::NothingToJoin | CementProblem::NoTimeForCoats { .. } => {
                ServiceField::Joining
            }
        };
        errors.add(field, Problem::Cement(problem));
        errors
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(dries: &str, open: &str, joining: &str) -> Fields {
        let mut fields = Fields::default();
        for (field, text) in FIELDS.into_iter().zip([dries, open, joining]) {
            fields.push(field.name(), text);
        }
        fields
    }

    #[test]
    fn cement_survives_its_form_and_nothing_typed_is_none() {
        assert_eq!(read(&typed("", " ", ""), None), Ok(None));
        let usual = Some(Minutes::new(45));
        let cement = read(&typed("20", "1:00", "15"), usual).unwrap();
        let mut fields = Fields::default();
        for (field, text) in fields_of(cement.unwrap()) {
            fields.push(field.name(), text);
        }
        assert_eq!(read(&fields, usual), Ok(cement));
    }

    #[test]
    fn what_can_t_be_is_said_at_its_field() {
        for (typed_so, at, said) in [
            (["20", "", "15"], ServiceField::StaysOpen, "Write minutes"),
            (["70", "60", "15"], ServiceField::StaysOpen, "maker's sheet"),
            (["20", "60", "0"], ServiceField::Joining, "write how many"),
            (["20", "60", "45"], ServiceField::Joining, "takes 45 min"),
        ] {
            let [dries, open, joining] = typed_so;
            let errors = read(&typed(dries, open, joining), Some(Minutes::new(45))).unwrap_err();
            let words = errors.at(&at).unwrap();
            assert!(words.contains(said), "{words}");
        }
    }
}
