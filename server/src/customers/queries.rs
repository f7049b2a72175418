//! Customers.

use shared_types::contact::{Customer, CustomerName, Email, Phone};
use shared_types::id::CustomerId;
use sqlx::FromRow;

use super::containing;
use crate::db::{Conn, DbError, all, corrupt, one, run};

#[derive(FromRow)]
struct CustomerRow {
    customer_id: String,
    name: String,
    email: Option<String>,
    phone: Option<String>,
}

impl CustomerRow {
    fn read(self) -> Result<Customer, DbError> {
        let read = || -> anyhow::Result<Customer> {
            Ok(Customer {
                id: self.customer_id.parse()?,
                name: CustomerName::parse(&self.name)?,
                email: self.email.as_deref().map(Email::parse).transpose()?,
                phone: self.phone.as_deref().map(Phone::parse).transpose()?,
            })
        };
        read().map_err(|error| corrupt("customer", &self.customer_id, error))
    }
}

/// Everything that finds a customer, in lower case; a telephone number also as bare digits.
fn search_text(customer: &Customer) -> String {
    let phone = customer.phone.as_ref().map_or("", |phone| phone.as_str());
    let digits: String = phone.chars().filter(char::is_ascii_digit).collect();
    let email = customer.email.as_ref().map_or("", |email| email.as_str());
    format!("{} {email} {phone} {digits}", customer.name).to_lowercase()
}

/// The customer with this id.
pub(crate) async fn get(conn: &mut Conn, id: CustomerId) -> Result<Option<Customer>, DbError> {
    let row = one!(
        conn,
        CustomerRow,
        "select customer_id, name, email, phone
         from customer
         where customer_id = $1",
        id.to_string()
    )?;
    row.map(CustomerRow::read).transpose()
}

/// Up to twenty customers whose name, address or telephone number contains this text.
pub(crate) async fn find(conn: &mut Conn, text: &str) -> Result<Vec<Customer>, DbError> {
    let rows = all!(
        conn,
        CustomerRow,
        "select customer_id, name, email, phone
         from customer
         where search like $1 escape '!'
         order by name, customer_id
         limit 20",
        containing(text)
    )?;
    rows.into_iter().map(CustomerRow::read).collect()
}

/// Adds a customer.
pub(crate) async fn add(conn: &mut Conn, customer: &Customer) -> Result<(), DbError> {
    run!(
        conn,
        "insert into customer (customer_id, name, email, phone, search)
         values ($1, $2, $3, $4, $5)",
        customer.id.to_string(),
        customer.name.as_str(),
        customer.email.as_ref().map(Email::as_str),
        customer.phone.as_ref().map(Phone::as_str),
        search_text(customer)
    )?;
    Ok(())
}

/// Changes how a customer is called and reached.
pub(crate) async fn change(conn: &mut Conn, customer: &Customer) -> Result<(), DbError> {
    run!(
        conn,
        "update customer
         set name = $2,
             email = $3,
             phone = $4,
             search = $5
         where customer_id = $1",
        customer.id.to_string(),
        customer.name.as_str(),
        customer.email.as_ref().map(Email::as_str),
        customer.phone.as_ref().map(Phone::as_str),
        search_text(customer)
    )?;
    Ok(())
}
