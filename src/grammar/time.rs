//! Times: "an hour and a quarter" becomes 5/4 hour, "a minute or two" becomes 1 to 2 minute, "half an hour" 30 minute.

use super::number::{Number, mixed, number};
use crate::lexicon::Sets;
use crate::measure::{Ratio, Time, TimeUnit};
use crate::token::input::miss;
use crate::token::{Kind, Read, Tokens};

fn unit(i: Tokens<'_>) -> Option<TimeUnit> {
    let t = i.first()?;
    Some(match &*t.text {
        "second" | "seconds" | "sec" | "secs" => TimeUnit::Second,
        "minute" | "minutes" | "min" | "mins" => TimeUnit::Minute,
        "hour" | "hours" | "hr" | "hrs" => TimeUnit::Hour,
        "day" | "days" => TimeUnit::Day,
        "week" | "weeks" => TimeUnit::Week,
        "month" | "months" => TimeUnit::Month,
        "year" | "years" => TimeUnit::Year,
        _ => return None,
    })
}

/// time := number ","? figure | figure (("to" | "or") figure)? | figure "," ("maybe" | "sometimes" | "or")? (figure | number)
///
/// Both ends may carry their own unit: "fifty minutes to an hour". "Fifteen, twenty minutes" and "an hour, hour and a half" are
/// ranges, too, where nothing but the end of the phrase follows.
pub fn time(i: Tokens<'_>) -> Read<'_, Time> {
    let read = one(i);
    if read.is_err()
        && let Ok((rest, least)) = number(i)
        && least.low == least.high
        && let Ok((rest, most)) =
            one(if rest.first().is_some_and(|t| t.kind == Kind::Comma) { rest.skip(1) } else { rest })
        && most.low() > least.high
        && most.low() <= least.high * Ratio::whole(2)
        && let Some(time) = Time::range(least.low, most.high(), most.unit())
    {
        return Ok((rest, time));
    }
    let (rest, first) = read?;
    if rest.at_any("to or")
        && let Ok((after, second)) = one(rest.skip(1))
        && second.high_seconds() > first.low_seconds()
    {
        let low = first.low_seconds() / Ratio::whole(second.unit().seconds());
        let high = second.high();
        // Minutes are kept where they were said: fifty minutes to an hour is 50 to 60 minutes.
        let (low, high, unit) = if first.unit() < second.unit() && !low.is_whole() {
            (first.low(), second.high_seconds() / Ratio::whole(first.unit().seconds()), first.unit())
        } else {
            (low, high, second.unit())
        };
        if let Some(time) = Time::range(low, high, unit) {
            return Ok((after, time));
        }
    }
    if let Some((after, second)) = second_thought(rest, &first)
        && let Some(time) = Time::range(first.low(), second / Ratio::whole(first.unit().seconds()), first.unit())
    {
        return Ok((after, time));
    }
    Ok((rest, first))
}

/// "…, maybe forty-five": the longer time that is said at once after a time, in seconds.
fn second_thought<'a>(rest: Tokens<'a>, first: &Time) -> Option<(Tokens<'a>, Ratio)> {
    let mut next = rest;
    if !next.first().is_some_and(|t| t.kind == Kind::Comma) {
        return None;
    }
    next = next.skip(1);
    while next.at_any("maybe sometimes or even perhaps") {
        next = next.skip(1);
    }
    let (after, seconds) = match one(next) {
        Ok((after, t)) => (after, t.high_seconds()),
        Err(_) => {
            let (after, n) = number(next).ok()?;
            (after, n.high * Ratio::whole(first.unit().seconds()))
        }
    };
    let ends = after.first().is_none_or(|t| t.kind != Kind::Word) || after.at_any("till until before so");
    let fits = seconds > first.high_seconds() && seconds <= first.high_seconds() * Ratio::whole(2);
    (ends && fits).then_some((after, seconds))
}

/// figure := number ("more" | "good" | …)? unit ("and" (fraction | number unit?))? | "half" "an" "hour" | "a" unit ("or" number)?
fn one(i: Tokens<'_>) -> Read<'_, Time> {
    let (rest, n) = match number(i) {
        Ok(found) => found,
        Err(miss) => {
            if i.at("the") && i.skip(1).at("last") && i.skip(2).at_any("minute hour") {
                // "For the last minute": one.
                (i.skip(2), Number { low: Ratio::ONE, high: Ratio::ONE })
            } else if i.at_any("a an another") || (unit(i).is_some() && i.at("hour")) {
                let skip = usize::from(i.at_any("a an another"));
                (i.skip(skip), Number { low: Ratio::ONE, high: Ratio::ONE })
            } else {
                return Err(miss);
            }
        }
    };
    // "half an hour", "three quarters of an hour", "ten more minutes", "a good ten minutes", "five whole minutes".
    let mut rest = rest;
    if rest.at("of") && rest.get(1).is_some_and(|t| t.is("an")) {
        rest = rest.skip(2);
    } else if rest.at_any("an a") {
        rest = rest.skip(1);
    }
    while rest.is_in("before a unit of time") {
        rest = rest.skip(1);
    }
    let Some(u) = unit(rest) else { return miss(i) };
    let mut rest = rest.skip(1);
    let (mut low, mut high, mut u) = (n.low, n.high, u);
    if rest.at_any("and or") {
        // "an hour and a half", "a minute or two", "an hour and fifteen minutes", "a minute and 30 seconds".
        let after = rest.skip(1);
        if rest.at("or") {
            if let Ok((end, m)) = mixed(after)
                && unit(end).is_none()
                && m > high
                && m < Ratio::whole(60)
            {
                high = m;
                rest = end;
            }
        } else if let Ok((end, m)) = mixed(after) {
            match unit(end) {
                None if m < Ratio::ONE => {
                    (low, high) = (low + m, high + m);
                    rest = end;
                }
                None if u == TimeUnit::Hour && m.is_whole() && m < Ratio::whole(60) && !end.at_any("of cups cup") => {
                    let part = m / Ratio::whole(60);
                    (low, high) = (low + part, high + part);
                    rest = end;
                }
                Some(smaller) if smaller < u => {
                    let each = Ratio::of(smaller.seconds(), u.seconds());
                    (low, high) = (low + m * each, high + m * each);
                    rest = end.skip(1);
                }
                _ => {}
            }
        }
    } else if u == TimeUnit::Hour
        && let Ok((end, m)) = mixed(rest)
        && unit(end) == Some(TimeUnit::Minute)
    {
        (low, high) = (low + m / Ratio::whole(60), high + m / Ratio::whole(60));
        rest = end.skip(1);
    }
    // Part of an hour is said in minutes on a card.
    if u == TimeUnit::Hour && high < Ratio::ONE {
        (low, high, u) = (low * Ratio::whole(60), high * Ratio::whole(60), TimeUnit::Minute);
    }
    match Time::range(low, high, u) {
        Some(time) => Ok((rest, time)),
        None => miss(i),
    }
}
