//! A whole car as a short word for a link, and back.
//!
//! A token is the version's character, then base64url (RFC 4648, section 5, without padding) of a checksum
//! (Adler-32 of what follows it, RFC 1950) and of the car's file, cut down and packed. It holds what a car file
//! holds, as exactly. A change of one character anywhere is noticed.

mod fault;
mod pack;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use geometry::car::Car;
use geometry::units::LengthUnit;

use crate::{FileFault, MAX_BYTES, read, write};
pub use fault::TokenFault;

/// What every token of this version begins with. Another packing, or other words to pack with, takes the next one.
const VERSION: u8 = b'1';

/// Bytes of the checksum.
const CHECKSUM: usize = 4;

/// The car as a token: letters, digits, `-` and `_`.
///
/// ```
/// let car = carfile::read(carfile::SCENARIOS[0].text).unwrap();
/// let token = carfile::to_token(&car).unwrap();
/// assert_eq!(carfile::from_token(&token).unwrap(), car);
/// ```
///
/// # Errors
/// The faults of the car: one that cannot be opened is not worth a link.
pub fn to_token(car: &Car) -> Result<String, Vec<FileFault>> {
    let tokens = [LengthUnit::Inch, LengthUnit::Millimeter]
        .map(|unit| write::brief(car, unit))
        .map(|text| read(&text).map(|_| token_of(text.as_bytes())));
    let [inches, millimeters] = tokens;
    let (inches, millimeters) = (inches?, millimeters?);
    Ok(if millimeters.len() < inches.len() {
        millimeters
    } else {
        inches
    })
}

fn token_of(text: &[u8]) -> String {
    let packed = pack::pack(text);
    let mut bytes = adler2::adler32_slice(&packed).to_be_bytes().to_vec();
    bytes.extend(packed);
    format!("{}{}", char::from(VERSION), URL_SAFE_NO_PAD.encode(bytes))
}

/// The car that a token holds.
///
/// # Errors
/// What is wrong with the token, or with the car in it. No token takes more room than a car file may.
pub fn from_token(token: &str) -> Result<Car, TokenFault> {
    if token.len() > MAX_BYTES {
        return Err(TokenFault::TooLong);
    }
    let packed = match token.as_bytes() {
        [] => return Err(TokenFault::Empty),
        [VERSION, rest @ ..] => URL_SAFE_NO_PAD.decode(rest),
        // Versions count up from here; anything else was never written by any.
        [b'2'..=b'9' | b'A'..=b'Z' | b'a'..=b'z', ..] => return Err(TokenFault::Newer),
        _ => return Err(TokenFault::Damaged),
    };
    let bytes = packed.map_err(|_| TokenFault::Damaged)?;
    let (checksum, packed) = bytes
        .split_first_chunk::<CHECKSUM>()
        .ok_or(TokenFault::Damaged)?;
    if adler2::adler32_slice(packed) != u32::from_be_bytes(*checksum) {
        return Err(TokenFault::Damaged);
    }
    let text = pack::unpack(packed, MAX_BYTES)?;
    let text = String::from_utf8(text).map_err(|_| TokenFault::Damaged)?;
    read(&text).map_err(TokenFault::Car)
}
#[cfg(test)]
mod tests {
    use super::*;

    /// A token that was packed as it should be, whatever is in it.
    fn sound(packed: &[u8]) -> String {
        let mut bytes = adler2::adler32_slice(packed).to_be_bytes().to_vec();
        bytes.extend(packed);
        format!("1{}", URL_SAFE_NO_PAD.encode(bytes))
    }

    #[test]
    fn what_unpacks_to_more_than_a_car_file_is_refused() {
        let bomb = |bytes: usize| token_of(&vec![b'#'; bytes]);
        let enough = MAX_BYTES + 1;
        assert!(bomb(enough).len() < enough / 500, "it would be a bomb");
        assert_eq!(from_token(&bomb(enough)), Err(TokenFault::TooLong));
        assert_eq!(from_token(&bomb(8 * enough)), Err(TokenFault::TooLong));
        assert!(matches!(
            from_token(&bomb(MAX_BYTES)),
            Err(TokenFault::Car(_))
        ));
    }

    #[test]
    fn nothing_that_is_badly_packed_panics_or_opens() {
        let car = read(crate::SCENARIOS[0].text).expect("the coupe is good");
        let packed = pack::pack(write::brief(&car, LengthUnit::Inch).as_bytes());
        assert_eq!(from_token(&sound(&packed)), Ok(car));
        for end in 0..packed.len() {
            assert_eq!(from_token(&sound(&packed[..end])), Err(TokenFault::Damaged));
        }
        let trailing = [&packed[..], &[0]].concat();
        assert_eq!(from_token(&sound(&trailing)), Err(TokenFault::Damaged));
        // Any three bytes, as they might begin: each kind of block, and codes that stand for nothing.
        for bytes in 0..=0x00ff_ffff_u32 {
            if bytes % 251 == 0 {
                let packed = bytes.to_le_bytes();
                assert!(from_token(&sound(&packed[..3])).is_err(), "{bytes:06x}");
            }
        }
    }
}
