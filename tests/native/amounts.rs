//! Amounts, times, heats, pans and yields, as people say them: one case a line.
//!
//! A case is what is said and what the production makes of it. What it leaves stands after a bar; "no" is a miss.

use super::spell::{self, check, taken};
use plainspoon::grammar::amount::amount;
use plainspoon::grammar::food::{each, food};
use plainspoon::grammar::heat::heat;
use plainspoon::grammar::number::number;
use plainspoon::grammar::pan::pan;
use plainspoon::grammar::time::time;
use plainspoon::grammar::yields::yields;
use plainspoon::read;

#[test]
fn numbers() {
    let cases = [
        ("two", "2"),
        ("twenty five", "25"),
        ("twenty-five", "25"),
        ("a hundred and twenty five grams", "125 | grams"),
        ("two hundred", "200"),
        ("a thousand", "1000"),
        ("half", "1/2"),
        ("a half", "1/2"),
        ("two thirds", "2/3"),
        ("three quarters", "3/4"),
        ("an eighth", "1/8"),
        ("a fourth", "1/4"),
        ("two and a quarter", "2 1/4"),
        ("one and three quarters", "1 3/4"),
        ("1 1/2", "1 1/2"),
        ("1½", "1 1/2"),
        ("½", "1/2"),
        ("1.5", "1 1/2"),
        ("1-1/2", "1 1/2"),
        ("a dozen", "12"),
        ("half a dozen", "6"),
        ("two dozen", "24"),
        ("a couple of", "2"),
        ("three to four", "3 to 4"),
        ("three or four", "3 to 4"),
        ("between two and three", "2 to 3"),
        ("8 to 10", "8 to 10"),
        ("a half to three quarters", "1/2 to 3/4"),
        // A range runs upward only.
        ("four to three", "4 | to three"),
        ("four or three", "4 | or three"),
        // "and" joins two numbers only after "between".
        ("two and three", "2 | and three"),
        // Two things are counted here, not one and a half.
        ("two and half a teaspoon", "2 | and half a teaspoon"),
        // Words that order things count nothing.
        ("third one", "no"),
        ("second", "no"),
        ("2nd", "no"),
        ("fourth", "no"),
        ("cups", "no"),
        ("", "no"),
    ];
    check(&cases, |said| taken(said, number, spell::number));
}

#[test]
fn amounts() {
    let cases = [
        ("a cup of flour", "1 cup | of flour"),
        ("cup of flour", "1 cup | of flour"),
        ("two cups", "2 cup"),
        ("a fourth of a cup", "1/4 cup"),
        ("a third of a cup", "1/3 cup"),
        ("two thirds cup", "2/3 cup"),
        ("two thirds of a cup", "2/3 cup"),
        ("half a cup", "1/2 cup"),
        ("a half cup", "1/2 cup"),
        ("half cup", "1/2 cup"),
        ("two and a quarter teaspoons", "2 1/4 teaspoon"),
        ("a cup and a half", "1 1/2 cup"),
        ("a cup and a half of milk", "1 1/2 cup | of milk"),
        ("two cups and a quarter", "2 1/4 cup"),
        ("one and a half cups", "1 1/2 cup"),
        ("half a stick", "1/2 stick"),
        ("a stick and a half of butter", "1 1/2 stick | of butter"),
        ("half a sleeve", "1/2 sleeve"),
        ("half a can", "1/2 can"),
        ("1 1/2 c", "1 1/2 cup"),
        ("1 c. sugar", "1 cup | sugar"),
        ("½ tsp", "1/2 teaspoon"),
        ("½ tsp. salt", "1/2 teaspoon | salt"),
        ("2 T", "2 tablespoon"),
        ("2T", "2 tablespoon"),
        ("2 t", "2 teaspoon"),
        ("2 tbsp", "2 tablespoon"),
        ("five pounds", "5 pound"),
        ("5 lbs", "5 pound"),
        ("250 grams", "250 gram"),
        ("250g", "250 gram"),
        ("300 mils", "300 milliliter"),
        ("300 ml", "300 milliliter"),
        ("two kilos", "2 kilogram"),
        ("half a litre", "1/2 liter"),
        ("eight fluid ounces", "8 fluid ounce"),
        ("8 oz", "8 ounce"),
        ("a half to three quarters of a cup", "1/2 to 3/4 cup"),
        ("three to four cups", "3 to 4 cup"),
        ("a tablespoon or two", "1 to 2 tablespoon"),
        ("two tablespoons to a quarter cup", "2 to 4 tablespoon"),
        ("about a cup", "about 1 cup"),
        ("a cup or so", "about 1 cup"),
        ("a heaping teaspoon", "heaping 1 teaspoon"),
        ("a scant cup", "scant 1 cup"),
        ("three 14 ounce cans", "3 can (14 ounce)"),
        ("three fourteen ounce cans", "3 can (14 ounce)"),
        ("a 5 ounce box", "1 box (5 ounce)"),
        ("the 15 ounce can", "1 can (15 ounce)"),
        ("28 ounce can", "1 can (28 ounce)"),
        ("one 8 oz. package", "1 package (8 ounce)"),
        ("2 (15 oz) cans", "2 can (15 ounce)"),
        ("a two pound bag", "1 bag (2 pound)"),
        ("two 400 gram tins", "2 can (400 gram)"),
        ("a pinch", "1 pinch"),
        ("three cloves of garlic", "3 clove | of garlic"),
        ("a big handful of kale", "1 handful | of kale"),
        ("another cup", "1 cup more"),
        ("another half a cup", "1/2 cup more"),
        ("half a cup of the sugar", "1/2 cup of the | of the sugar"),
        ("an eighth of a teaspoon each", "1/8 teaspoon each"),
        ("an inch of ginger", "1 inch | of ginger"),
        // Only a unit makes an amount.
        ("two eggs", "no"),
        ("two", "no"),
        ("cup", "no"),
        ("cups are on the shelf", "no"),
        // "a" and "the" alone open nothing.
        ("the cup", "no"),
        ("the can", "no"),
        // "can" is a verb unless it is counted.
        ("can you", "no"),
        ("you can", "no"),
        // A tray is no sheet of anything.
        ("a sheet pan", "no"),
        ("a sheet of nori", "1 sheet | of nori"),
        // A time is no amount.
        ("two minutes", "no"),
        ("two cups er flour", "2 cup | er flour"),
    ];
    check(&cases, |said| taken(said, amount, spell::amount));
}

#[test]
fn foods() {
    let cases = [
        ("two cups of flour", "2 cup flour"),
        ("two cups flour", "2 cup flour"),
        ("three 14 ounce cans of diced tomatoes", "3 can (14 ounce) diced tomatoes"),
        ("a 5 ounce box of vanilla pudding", "1 box (5 ounce) vanilla pudding"),
        ("two eggs", "2 eggs"),
        ("a dozen eggs", "12 eggs"),
        ("half a dozen eggs", "6 eggs"),
        ("a large onion, chopped", "1 large onion [chopped]"),
        ("one large onion, finely chopped", "1 large onion [finely chopped]"),
        ("three cups of sharp cheddar, grated", "3 cup sharp cheddar [grated]"),
        ("a cup of chopped walnuts", "1 cup walnuts [chopped]"),
        ("an inch of ginger", "1 inch ginger"),
        ("five pounds of potatoes", "5 pound potatoes"),
        ("250 grams of butter", "250 gram butter"),
        ("300 mils of milk", "300 milliliter milk"),
        ("half a stick of butter, melted", "1/2 stick butter [melted]"),
        ("half a sleeve of saltines, crushed", "1/2 sleeve saltines [crushed]"),
        ("two boneless, skinless chicken breasts", "2 boneless skinless chicken breasts"),
        ("a cup of half and half", "1 cup half and half"),
        ("a teaspoon of taco seasoning", "1 teaspoon taco seasoning"),
        ("salt to taste", "salt to taste"),
        ("some salt", "some salt"),
        ("the rest of the butter", "rest of butter"),
        ("half of the cheese", "part of cheese"),
        ("a cup of brown sugar", "1 cup brown sugar"),
        // The longest name wins: cream cheese is no cream.
        ("cream cheese", "cream cheese"),
        ("sour cream", "sour cream"),
        ("buttermilk", "buttermilk"),
        // What follows owns the name, and it is no food.
        ("lemon slice", "lemon | slice"),
        ("butter knife", "no"),
        ("a bread knife", "no"),
        ("a bowl", "no"),
        ("the oven", "no"),
        ("parchment paper", "no"),
        ("two minutes", "no"),
    ];
    check(&cases, |said| taken(said, food, spell::food));
}

#[test]
fn one_amount_for_each_of_several() {
    let foods = |all: &Vec<_>| all.iter().map(spell::food).collect::<Vec<_>>().join("; ");
    let cases = [
        (
            "an eighth of a teaspoon each of mace, allspice and white pepper",
            "1/8 teaspoon mace; 1/8 teaspoon allspice; 1/8 teaspoon white pepper",
        ),
        ("a third of a cup each of chopped dates and walnuts", "1/3 cup dates [chopped]; 1/3 cup walnuts"),
        ("a teaspoon each of cumin and coriander", "1 teaspoon cumin; 1 teaspoon coriander"),
        ("a teaspoon each cumin, coriander", "1 teaspoon cumin; 1 teaspoon coriander"),
        ("a teaspoon of cumin and coriander", "no"),
        ("each of you", "no"),
    ];
    check(&cases, |said| taken(said, each, foods));
}

#[test]
fn times() {
    let cases = [
        ("8 to 10 minutes", "8 to 10 minutes"),
        ("eight to ten minutes", "8 to 10 minutes"),
        ("a minute", "1 minute"),
        ("a minute or two", "1 to 2 minutes"),
        ("five minutes", "5 minutes"),
        ("45 min", "45 minutes"),
        ("thirty seconds", "30 seconds"),
        ("an hour", "1 hour"),
        ("half an hour", "30 minutes"),
        ("a half hour", "30 minutes"),
        ("three quarters of an hour", "45 minutes"),
        ("an hour and a half", "1 1/2 hours"),
        ("an hour and a quarter", "1 1/4 hours"),
        ("an hour and fifteen minutes", "1 1/4 hours"),
        ("two and a half hours", "2 1/2 hours"),
        ("1 hour 20 minutes", "1 1/3 hours"),
        ("fifty minutes to an hour", "50 to 60 minutes"),
        ("two to three hours", "2 to 3 hours"),
        ("another ten minutes", "no"),
        ("ten more minutes", "10 minutes"),
        ("two days", "2 days"),
        ("ten minutes then stir", "10 minutes | then stir"),
        ("ten", "no"),
        ("ten cups", "no"),
        ("minutes", "no"),
    ];
    check(&cases, |said| taken(said, time, |t| t.to_string()));
}

#[test]
fn heats() {
    let cases = [
        ("350", "350°F"),
        ("three fifty", "350°F"),
        ("three seventy five", "375°F"),
        ("four hundred", "400°F"),
        ("four twenty five degrees", "425°F"),
        ("350 degrees fahrenheit", "350°F"),
        ("350°F", "350°F"),
        ("gas mark 6", "gas mark 6"),
        ("gas mark four", "gas mark 4"),
        ("gas 6", "gas mark 6"),
        ("180 fan", "180°C fan"),
        ("180 celsius", "180°C"),
        ("180 degrees", "180°C"),
        ("a hundred and eighty", "180°C"),
        ("200 degrees celsius fan", "200°C fan"),
        // The edges of a British oven's dial, and one past them.
        ("gas mark 1", "gas mark 1"),
        ("gas mark 10", "gas mark 10"),
        ("gas mark 11", "no"),
        ("gas mark 0", "no"),
        // The edges of what an oven can be set to.
        ("290 celsius", "290°C"),
        ("291 celsius", "no oven"),
        ("60 celsius", "60°C"),
        ("59 celsius", "no oven"),
        ("550 fahrenheit", "550°F"),
        ("551 fahrenheit", "no oven"),
        ("150 fahrenheit", "150°F"),
        ("149 fahrenheit", "no oven"),
        ("two", "no"),
        ("3 1/2", "no"),
        ("gas", "no"),
    ];
    check(&cases, |said| taken(said, heat, |h| h.oven(false).map_or("no oven".to_owned(), |o| o.to_string())));
}

#[test]
fn pans() {
    let cases = [
        ("nine by thirteen", "rectangle: 9 × 13 in pan"),
        ("9x13", "rectangle: 9 × 13 in pan"),
        ("9 x 13 inch pan", "rectangle: 9 × 13 in pan"),
        ("nine by thirteen baking dish", "rectangle: 9 × 13 in baking dish"),
        ("eight by eight", "square: 8 × 8 in pan"),
        ("eight inch square pan", "square: 8 in square pan"),
        ("nine inch round cake pan", "round: 9 in round cake pan"),
        ("nine inch pie plate", "pie: 9 in pie plate"),
        ("ten inch cast iron skillet", "skillet: 10 in cast iron skillet"),
        ("20 by 30 centimetre tin", "rectangle: 20 × 30 cm tin"),
        ("23 cm springform tin", "round: 23 cm springform tin"),
        ("nine by five loaf pan", "loaf: 9 × 5 in loaf pan"),
        // One side needs its unit and a pan.
        ("nine pan", "no"),
        ("nine inch", "no"),
        ("nine inches of snow", "no"),
        ("two by fours", "no"),
        ("pan", "no"),
    ];
    check(&cases, |said| taken(said, pan, |p| format!("{}: {p}", p.shape.name())));
}

#[test]
fn how_much_it_makes() {
    let cases = [
        ("feeds six", "6 servings"),
        ("serves 4 to 6", "4 to 6 servings"),
        ("serves about eight", "8 servings"),
        ("feeds eight people", "8 servings"),
        ("enough for ten", "10 servings"),
        ("makes two dozen cookies", "24 cookies"),
        ("makes about two dozen cookies", "24 cookies"),
        ("makes 12 muffins", "12 muffins"),
        ("makes a loaf", "1 loaf"),
        ("serves her right", "no"),
        ("makes me happy", "no"),
        ("makes two mistakes", "no"),
        ("feeds", "no"),
        ("for ten minutes", "no"),
    ];
    check(&cases, |said| {
        taken(said, yields, |y| {
            let n = spell::number(&plainspoon::grammar::number::Number { low: y.low, high: y.high });
            format!("{n} {}", y.of)
        })
    });
}

/// What leads to a number tells that it is how many are fed; the card takes the figure that says most.
#[test]
fn how_many_it_feeds() {
    let cases = [
        ("That is for four, with bread.", "4 servings"),
        ("It's for six as a starter.", "6 servings"),
        ("So that's six people, or me and a weekend.", "6 servings"),
        ("That'll do two, three people.", "2 to 3 servings"),
        ("It does ten as a side.", "10 servings"),
        ("Jo: How many does it feed? Ann: Six. Jo: Good.", "6 servings"),
        ("You get about twenty soups.", "20 soups"),
        ("Cut the chicken into eight pieces. It feeds four.", "4 servings"),
        ("It's six pieces.", "6 pieces"),
        ("It's for four hours.", "no"),
        ("Five people put salt last year.", "no"),
        ("It's good for two days.", "no"),
        ("How many onions do you do? Two.", "no"),
        ("At the wedding, four hundred people, twenty kilos of leaves.", "no"),
        ("That's two for the top.", "no"),
    ];
    check(&cases, |said| {
        let book =
            read(&format!("We're making corn soup. Boil a kilo of corn in two liters of water until soft. {said}"));
        book.cards[0].makes.as_ref().map_or("no".to_owned(), |y| {
            let n = spell::number(&plainspoon::grammar::number::Number { low: y.low, high: y.high });
            format!("{n} {}", y.of)
        })
    });
}

/// Amounts that stand away from their food are put beside it by the reading.
#[test]
fn lines_of_a_list() {
    let cases = [
        ("butter, two sticks of it, soft", "2 stick butter [soft]"),
        ("flour, three cups", "3 cup flour"),
        ("the juice of two limes", "2 limes [juice]"),
        ("an inch of ginger, grated", "1 inch ginger [grated]"),
        ("three 14 ounce cans of tomatoes", "3 can (14 ounce) tomatoes"),
        ("a cup and a half of lentils", "1 1/2 cup lentils"),
        ("a dozen oysters", "12 oysters"),
        ("1 1/2 c. rice", "1 1/2 cup rice"),
        ("half a sleeve of saltines, crushed", "1/2 sleeve saltines [crushed]"),
        ("a third of a cup each of chopped dates and walnuts", "1/3 cup dates [chopped]; 1/3 cup walnuts"),
        (
            "an eighth of a teaspoon each of mace, allspice and white pepper",
            "1/8 teaspoon mace; 1/8 teaspoon allspice; 1/8 teaspoon white pepper",
        ),
        ("salt to taste", "salt to taste"),
        ("a pinch of salt", "1 pinch salt"),
    ];
    check(&cases, |said| {
        let draft = format!("We're making soup. You need {said}. It all goes in the pot.");
        spell::lines(&read(&draft)).join("; ")
    });
}
