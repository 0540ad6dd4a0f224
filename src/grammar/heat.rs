//! Heat: "three seventy five" becomes 375 F, "gas mark 6" gas 6, "180 fan" 180 C with the fan on.
//!
//! A bare figure is heat only where the caller knows that the talk is of the oven; a marked one ("350 degrees") always is.

use super::number::{spoken_hundreds, whole};
use crate::measure::Heat;
use crate::measure::bounds;
use crate::token::input::miss;
use crate::token::{Read, Tokens};

/// A heat and whether its scale was said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SaidHeat {
    /// The figure, 1..=999.
    pub degrees: u16,
    /// The scale said: 'f', 'c', 'g' for gas, or nothing.
    pub scale: Option<char>,
    /// "fan" was said.
    pub fan: bool,
    /// "degrees", a scale or a sign was said.
    pub marked: bool,
}

impl SaidHeat {
    /// The setting it names for an oven, taking Fahrenheit or Celsius where neither was said by what an oven can be.
    /// `metric` says that the talk is in grams. `None` where no oven could be set to it.
    pub fn oven(self, metric: bool) -> Option<Heat> {
        let n = self.degrees;
        let scale =
            self.scale.unwrap_or(if self.fan || (n < 200 || (metric && n <= 250)) && n != 175 { 'c' } else { 'f' });
        match scale {
            'g' => bounds::GAS.holds(n.into()).then_some(Heat::Gas(n)),
            'c' if self.fan => bounds::OVEN_C.holds(n.into()).then_some(Heat::Fan(n)),
            'c' => bounds::OVEN_C.holds(n.into()).then_some(Heat::Celsius(n)),
            _ => bounds::OVEN_F.holds(n.into()).then_some(Heat::Fahrenheit(n)),
        }
    }
}

/// heat := ("gas" "mark"? | "mark") whole | degrees ("degrees" | "°")? ("fahrenheit" | "f" | "celsius" | "c")? "fan"?
pub fn heat(i: Tokens<'_>) -> Read<'_, SaidHeat> {
    let gas = match (i.at("gas"), i.get(1).is_some_and(|t| t.is("mark"))) {
        (true, true) => Some(2),
        (true, false) => Some(1),
        _ => None,
    };
    if let Some(skip) = gas {
        let (rest, n) = whole(i.skip(skip))?;
        if n.is_whole() && (1..=10).contains(&n.num()) {
            return Ok((rest, SaidHeat { degrees: n.num() as u16, scale: Some('g'), fan: false, marked: true }));
        }
        return miss(i);
    }
    let (mut rest, n) = match spoken_hundreds(i) {
        Ok((rest, n)) => (rest, n),
        Err(_) => {
            let (rest, n) = whole(i)?;
            if !n.is_whole() {
                return miss(i);
            }
            (rest, n.num())
        }
    };
    if !(40..=999).contains(&n) {
        return miss(i);
    }
    let mut said = SaidHeat { degrees: n as u16, scale: None, fan: false, marked: false };
    while let Some(t) = rest.first() {
        if t.is_any("degrees degree ° deg") {
            said.marked = true;
        } else if t.is_any("fahrenheit f") {
            (said.scale, said.marked) = (Some('f'), true);
        } else if t.is_any("celsius c centigrade") {
            (said.scale, said.marked) = (Some('c'), true);
        } else if t.is("fan") || (t.is("on") && rest.get(1).is_some_and(|t| t.is("fan"))) {
            (said.fan, said.marked) = (true, true);
            if t.is("on") {
                rest = rest.skip(1);
            }
        } else {
            break;
        }
        rest = rest.skip(1);
    }
    Ok((rest, said))
}
