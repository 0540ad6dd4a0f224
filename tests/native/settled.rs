//! What is settled in the talk: figures taken back, parts of what was measured, her own swaps, amounts without stops.
//!
//! A case is a piece of talk and the lines of the list it makes, the foods round about left out. Each is read as sentences of
//! their own; the forms are common practice of speech, made up for this table.

use super::spell;
use plainspoon::read;

/// The list of a dish in which this is said, but for the peas and the dill that frame it.
fn list(said: &str) -> String {
    let book = read(&format!("Beef stew. Two cups of peas go in. {said} Then a teaspoon of dill and stir it well."));
    let lines = book.cards.iter().flat_map(|c| &c.lines).filter(|l| l.name != "peas" && l.name != "dill");
    let spelled = lines.map(|l| match l.amount {
        Some(a) => {
            let range = if a.is_range() { format!("{}-{}", a.low(), a.high()) } else { a.low().to_string() };
            let unit = a.unit().map_or(String::new(), |u| format!(" {}", u.name()));
            format!("{range}{unit} {}", l.name)
        }
        None => format!("- {}", l.name),
    });
    spelled.collect::<Vec<_>>().join("; ")
}

fn check(cases: &[(&str, &str)]) {
    spell::check(cases, list);
}

#[test]
fn a_figure_that_is_put_right_in_the_same_breath() {
    check(&[
        ("Two slices of bacon, no, four, and fry them.", "4 slice bacon"),
        ("A teaspoon of cumin, no wait, two teaspoons.", "2 teaspoon cumin"),
        ("A teaspoon of cumin, wait, two.", "2 teaspoon cumin"),
        ("A teaspoon of cumin, sorry, a tablespoon.", "1 tablespoon cumin"),
        ("A teaspoon of cumin, I mean a tablespoon.", "1 tablespoon cumin"),
        ("A teaspoon of cumin. I said teaspoon, I meant tablespoon.", "1 tablespoon cumin"),
        ("A teaspoon of cumin. Tablespoon, not teaspoon.", "1 tablespoon cumin"),
        ("Three cups of flour, make that four.", "4 cup flour"),
        ("Three cups of flour. Actually no, four.", "4 cup flour"),
        ("Three cups of flour, scratch that, four cups.", "4 cup flour"),
        ("Three cups of flour. Did I say three? Four.", "4 cup flour"),
        ("Three cups of flour. It's four, not three.", "4 cup flour"),
        ("Three cups of flour. Not three, four.", "4 cup flour"),
        ("350 grams of flour, no, 250.", "250 gram flour"),
        ("Two onions, let's say three.", "3 onions"),
        ("Half a cup of butter, no, oil.", "1/2 cup oil"),
        ("A tablespoon of cornstarch in a little milk, I mean two teaspoons.", "2 teaspoon cornstarch; - milk"),
        ("Three cups of flour or four.", "3-4 cup flour"),
    ]);
}

#[test]
fn what_only_looks_like_putting_right() {
    check(&[
        ("A teaspoon of cumin. Wait two minutes.", "1 teaspoon cumin"),
        ("Three cups of flour. No, four eggs.", "3 cup flour; 4 eggs"),
        ("Three cups of flour. Sorry, the phone. Two eggs.", "3 cup flour; 2 eggs"),
        ("Two onions. No, one of them goes in later.", "2 onions"),
        ("Two pounds of grapes. You pinch every grape.", "2 pound grapes"),
        ("A cup of rice, wait until it boils, then two carrots.", "1 cup rice; 2 carrots"),
    ]);
}

#[test]
fn a_count_of_what_was_named_before() {
    check(&[
        ("Cucumbers. Three of them, the long kind, cut in strips.", "3 cucumbers"),
        ("Then potatoes. Four medium ones, peeled.", "4 potatoes"),
        ("The onions now. I use two, chopped.", "2 onions"),
    ]);
}

#[test]
fn taken_back_with_the_reason_between() {
    check(&[
        ("Half a cup of mayonnaise, no, that swims, six tablespoons.", "6 tablespoon mayonnaise"),
        ("Two cups of flour, no, too dry, a cup and a half.", "1 1/2 cup flour"),
        ("A cup of milk and two eggs, no, the eggs come later, a pinch of salt.", "1 cup milk; 2 eggs; 1 pinch salt"),
    ]);
}

#[test]
fn parts_of_what_was_measured() {
    check(&[
        ("A cup of sugar. Half of that goes in now. The rest goes on top.", "1 cup sugar"),
        ("Half an onion now and the other half at the end.", "1 onion"),
        ("A quarter cup of oil in all. Two tablespoons now.", "1/4 cup oil"),
        ("A teaspoon of salt in the meat and half a teaspoon of salt in the sauce.", "1 1/2 teaspoon salt"),
        ("A stick of butter. Two tablespoons of the butter go in the pan, the rest in the sauce.", "1 stick butter"),
        ("A pint of cream, and you save half for the top.", "1 pint cream"),
        ("Two pounds of beef. Put a spoonful of filling in each one.", "2 pound beef"),
    ]);
}

#[test]
fn what_she_uses_and_what_others_do() {
    check(&[
        ("A cup of milk instead of cream.", "1 cup milk"),
        ("Instead of cream I use a cup of milk.", "1 cup milk"),
        ("The recipe says two cups of sugar and I put in one and a half.", "1 1/2 cup sugar"),
        ("Some people add a piece of cinnamon, it's up to you.", "1 piece cinnamon"),
        ("My mother put a cup of raisins in hers.", ""),
    ]);
}

#[test]
fn the_next_amount_is_no_preparation() {
    check(&[
        ("Two carrots grated half a cup of corn syrup.", "2 carrots; 1/2 cup corn syrup"),
        ("Two carrots chopped a quarter cup of parsley.", "2 carrots; 1/4 cup parsley"),
        ("One onion chopped and half a small turnip diced.", "1 onion; 1/2 small turnip"),
        ("Two carrots cut half an inch thick.", "2 carrots"),
    ]);
}

#[test]
fn names_of_more_than_one_food() {
    check(&[
        ("Three cups of whole milk yogurt.", "3 cup whole milk yogurt"),
        ("A scoop of chocolate protein powder.", "1 scoop chocolate protein powder"),
        ("A cup of 18 percent cream.", "1 cup 18 percent cream"),
        ("Three pounds of bone-in, skin-on chicken thighs.", "3 pound bone in skin on chicken thighs"),
        ("A cup of brown or green lentils.", "1 cup brown or green lentils"),
        ("Four cube steaks.", "4 cube steaks"),
        ("Cup each of flour and oats.", "1 cup flour; 1 cup oats"),
        ("Two mangoes, diced.", "2 mangoes"),
    ]);
}

#[test]
fn counts_and_kinds_that_follow_the_food() {
    check(&[
        ("Bananas, sliced, three of them.", "3 bananas"),
        ("Eggs, the big brown ones, three of them.", "3 eggs"),
        ("Potatoes, four medium, peeled and diced.", "4 potatoes"),
        ("Onions. Four, big ones, sliced.", "4 onions"),
        ("Turmeric, the powder, half a teaspoon.", "1/2 teaspoon turmeric"),
        ("Now potatoes. Three pounds of russets, peeled.", "3 pound russets"),
        ("Six seven curry leaves and a green chilli.", "6-7 curry leaves; 1 green chilli"),
        ("Twenty five, thirty minutes. Two onions.", "2 onions"),
        ("One sweet red pepper, and one green, diced.", "1 sweet red pepper; 1 green pepper"),
        ("A third of a cup of coconut and walnuts half a cup.", "1/3 cup coconut; 1/2 cup walnuts"),
        ("Bell peppers, one red, one green, in squares.", "1 red bell pepper; 1 green pepper"),
        ("Two cloves, the spice, not garlic.", "2 cloves"),
        ("Put in half onion and two fat leeks.", "1/2 onion; 2 leeks"),
        ("The salt, one teaspoon and half.", "1 1/2 teaspoon salt"),
        ("Half of bunch of parsley.", "1/2 bunch parsley"),
        ("A two pound ring of sausage.", "1 sausage"),
        ("Two chilies, chopped, and a thumb of ginger.", "2 chilies; 1 piece ginger"),
    ]);
}

#[test]
fn which_measure_it_was() {
    check(&[
        ("Four spoons of olive oil, soup spoons I mean, tablespoons.", "4 tablespoon olive oil"),
        (
            "Coriander powder one spoon, and cumin powder half spoon.",
            "1 spoonful coriander powder; 1/2 spoonful cumin powder",
        ),
        ("Two cups of milk, stir it with a spoon.", "2 cup milk"),
        ("Cumin two teaspoons, turmeric half.", "2 teaspoon cumin; 1/2 teaspoon turmeric"),
        ("Chilli powder half. Half a teaspoon I mean.", "1/2 teaspoon chilli powder"),
        ("Two hundred grams of treacle, a hundred of golden syrup.", "200 gram treacle; 100 gram golden syrup"),
    ]);
}

#[test]
fn what_a_book_says_and_what_would_do() {
    check(&[
        ("A cup of milk. Well, the recipe everybody has says two cups of milk.", "1 cup milk"),
        ("Two teaspoons of ginger. The old book's got one teaspoon of ginger.", "2 teaspoon ginger"),
        ("This recipe takes two cups of flour.", "2 cup flour"),
        ("Two teaspoons of thyme. If you can't get it, a teaspoon of oregano will do.", "2 teaspoon thyme"),
        ("Two cups of flour. If you've the plain kind, you'd need a teaspoon of baking powder.", "2 cup flour"),
        ("Two tablespoons of butter or oil.", "2 tablespoon butter"),
        ("One egg. My cousin made it for the Legion one year, twenty pounds of flour and three dozen eggs.", "1 egg"),
        ("My mother made it with lard, two cups of flour.", "2 cup flour"),
        ("Some folks put a clove of garlic in there. I do.", "1 clove garlic"),
        ("Some folks put a clove of garlic in there. I don't.", ""),
        ("How much butter do you want? Four ounces.", "4 ounce butter"),
        ("Three tablespoons of milk perhaps.", "3 tablespoon milk"),
    ]);
}

#[test]
fn a_figure_that_is_put_right_with_a_reason() {
    check(&[
        ("Then salt, two teaspoons, no, the stock has salt in it already, one and a half.", "1 1/2 teaspoon salt"),
        ("Half a cup of yogurt. No, no, the cucumber gives its own water, so one third cup.", "1/3 cup yogurt"),
        ("Seven cups of water. Hmm. With two cups of lentils I do eight.", "8 cup water"),
        ("And then sugar. I always say half a cup, but this melon is sweet, so a quarter cup.", "1/4 cup sugar"),
        ("Three ounces of brown sugar. Hang on, no, that's the beetroot, it's two ounces.", "2 ounce brown sugar"),
        ("Six cloves of garlic. Well, look how much I chop. Put eight.", "8 clove garlic"),
        ("A teaspoon of salt, but the broth is salty, so taste it first.", "1 teaspoon salt"),
        ("Three eggs. Oh, the oven, so 350 degrees.", "3 eggs"),
        ("Two cups of rice, but it's for six, so three cups of water.", "2 cup rice; 3 cup water"),
        ("The book says two tablespoons of molasses, but that's a lot, so I put one.", "1 tablespoon molasses"),
        (
            "A cup of mayo, a teaspoon of sugar. Last time it was dry. So go a cup and a half.",
            "1 1/2 cup mayo; 1 teaspoon sugar",
        ),
        ("A cup of milk, a teaspoon of vanilla. Hmm, make it a cup and a half.", "1 1/2 cup milk; 1 teaspoon vanilla"),
    ]);
}

#[test]
fn what_is_no_food_of_its_own() {
    check(&[
        ("Six buah keras, that's candlenut, and a stick of butter.", "6 buah keras; 1 stick butter"),
        ("Half a teaspoon of nigella seeds, kalo jeera we call it.", "1/2 teaspoon nigella seeds"),
        // The allergen is told by the other name only.
        (
            "Two tablespoons of barrelwort, that's soy sauce, and an onion.",
            "2 tablespoon barrelwort; - soy sauce; 1 onion",
        ),
        ("We eat it with a banana and a piece of jaggery.", ""),
        ("Ruby next door puts a teaspoon of mixed spice in hers.", ""),
        ("Last time I put a cup of sugar and it was too sweet.", ""),
        ("My father used three oranges.", ""),
        ("Two oranges. My father did three oranges, too sweet for me.", "2 oranges"),
    ]);
}

#[test]
fn amounts_that_stand_apart() {
    check(&[
        ("Frozen corn can go in with the water, half a cup.", "1/2 cup frozen corn"),
        ("A carrot and quarter of small cabbage.", "1 carrot; 1/4 small cabbage"),
        ("I use walu, one kilo.", "1 kilogram walu"),
        ("A teaspoon of cumin, and papelón, two tablespoons, grated.", "1 teaspoon cumin; 2 tablespoon papelón"),
        ("Parsley and the green onion, half a bunch of each one, chopped.", "1/2 bunch parsley; 1/2 bunch green onion"),
        ("One green pepper chopped, and some pepper.", "1 green pepper; - pepper"),
        ("Two ounces of cooking salt.", "2 ounce cooking salt"),
        ("Ten shallots slice thin, one teaspoon of salt.", "10 shallots; 1 teaspoon salt"),
        ("Two slice bread and three slices of ham.", "2 slice bread; 3 slice ham"),
        ("A tin of tomatoes, half a tin. Half? Half a tin.", "1/2 can tomatoes"),
    ]);
}

#[test]
fn figures_of_two_places_and_pieces_that_are_measured() {
    check(&[
        (
            "Half a teaspoon of salt for the potatoes. For the meat one teaspoon of salt.",
            "1 1/2 teaspoon salt; - potatoes",
        ),
        ("Two tablespoons of butter for the pan and then a tablespoon of butter for the top.", "3 tablespoon butter"),
        ("Half a teaspoon of salt in the meat. One teaspoon of salt in the meat.", "1 teaspoon salt"),
        ("Half a teaspoon of salt for the dough. For the top one teaspoon of salt.", "1 1/2 teaspoon salt"),
        ("One tablespoon of garlic paste, no, garlic is less, two teaspoons of garlic.", "2 teaspoon garlic paste"),
        ("A piece of ginger, let me say two inches, crushed.", "2 inch ginger"),
        ("One onion and ginger, a thumb, let's say one inch.", "1 onion; 1 inch ginger"),
        ("A piece of parmesan, then two hundred grams of butter.", "1 piece parmesan; 200 gram butter"),
        ("Two sticks of cinnamon. Cardamom, ten pods. Cloves, six.", "2 stick cinnamon; 10 cardamom pods; 6 cloves"),
        (
            "Two tablespoons of sugar. The book says half a cup of sugar. That's a dessert. Two tablespoons.",
            "2 tablespoon sugar",
        ),
    ]);
}

#[test]
fn a_measured_food_that_is_named_before_or_beside_its_measure() {
    check(&[
        ("A cup and a half of white sugar and half a cup of brown.", "1 1/2 cup white sugar; 1/2 cup brown sugar"),
        ("Then the flour, a hundred and seventy five grams of self raising.", "175 gram self raising flour"),
        (
            "Two tablespoons of sugar, brown sugar, and a teaspoon of cinnamon.",
            "2 tablespoon brown sugar; 1 teaspoon cinnamon",
        ),
        ("Coconut, from the freezer, a hundred grams.", "100 gram coconut"),
        ("A teaspoon of, um, the seafood seasoning.", "1 teaspoon seafood seasoning"),
        ("Tomatoes three cut in half.", "3 tomatoes"),
        ("Oats, half a cup of hot water.", "1/2 cup hot water"),
        ("It took eleven lemons to get two cups of juice.", "2 cup lemon juice"),
        ("Coconut milk three cups garlic six cloves one onion sliced.", "3 cup coconut milk; 6 clove garlic; 1 onion"),
    ]);
}

#[test]
fn a_vegetable_that_was_heard_as_another_word() {
    check(&[
        ("Soften a leak and an onion.", "1 leek; 1 onion"),
        ("Two carrots, a leak.", "2 carrots; 1 leek"),
        ("There was a leak and a plumber came. One onion.", "1 onion"),
        ("We had a leak and water everywhere. One onion.", "1 onion"),
    ]);
}

#[test]
fn one_of_several_and_the_other_one() {
    check(&[
        ("One onion cut in four. Fry the other onion with a clove of garlic.", "2 onion; 1 clove garlic"),
        ("One onion and two leeks. Slice the second onion thinly.", "2 onion; 2 leeks"),
        (
            "Two eggs and a cup of flour. One egg goes in the dough and the other one is for the top.",
            "2 eggs; 1 cup flour",
        ),
        ("One onion, half of it in the pot. Then the other half of the onion, chopped.", "1 onion"),
        ("One lemon. The second half of the lemon goes over the top.", "1 lemon"),
        ("Two red peppers, one green pepper. The other pepper stays out.", "2 red peppers; 1 green pepper"),
        (
            "A cup of sugar in the dough. And the other sugar, half a cup of brown sugar, on top.",
            "1 cup sugar; 1/2 cup brown sugar",
        ),
    ]);
}

#[test]
fn figures_of_the_sentence_before() {
    check(&[
        ("Then sugar and cocoa. Half a cup of each.", "1/2 cup sugar; 1/2 cup cocoa"),
        ("Cheese, two cups. Three. It's three because of the top.", "3 cup cheese"),
        ("A cup of rice. It's three because the kids come home.", "1 cup rice"),
        ("Two tablespoons of curry powder, no hang on, that was dessertspoons.", "2 dessertspoon curry powder"),
        ("Two tablespoons of curry powder, I do two dessertspoons of it.", "2 dessertspoon curry powder"),
        ("Two tablespoons of butter. I use one tablespoon for the top.", "2 tablespoon butter"),
        ("Two cups of sugar. It's a cup and three quarters in mine now.", "1 3/4 cup sugar"),
        ("Two cups of sugar. It's twenty minutes in mine now.", "2 cup sugar"),
    ]);
}

#[test]
fn an_order_that_names_its_food() {
    check(&[
        ("I salt the water with a tablespoon.", "1 tablespoon salt"),
        ("I salt the roast with two teaspoons of salt.", "2 teaspoon salt"),
        ("Flour it good, three tablespoons.", "3 tablespoon flour"),
        ("Butter the pan with a tablespoon.", "1 tablespoon butter"),
    ]);
}

#[test]
fn what_is_poured_and_what_is_weighed() {
    check(&[
        (
            "200 grams of flour, 300 ml of stock, 150 of cream and 80 of cheese.",
            "200 gram flour; 300 milliliter stock; 150 milliliter cream; 80 gram cheese",
        ),
        ("60 grams of butter and 30 grams of flour. Then 250 of milk.", "60 gram butter; 30 gram flour; 250 gram milk"),
    ]);
}

#[test]
fn a_food_that_waits_for_its_figure() {
    check(&[
        ("And then the last is the palm oil. Two cups. I know what the doctor said.", "2 cup palm oil"),
        ("Now the main thing is sorrel. Two hundred grams, cut like ribbons.", "200 gram sorrel"),
        ("Okay, eggplant. Four of the long skinny Japanese ones.", "4 eggplant"),
        ("And onions, so many onions. Here the onions are big, so I take six.", "6 onions"),
        ("Potatoes go in the big pot with the skins on, eight medium ones.", "8 potatoes"),
        ("Now potatoes. Four big. Peel them.", "4 potatoes"),
        ("When that's done, potatoes. Four, peeled, cut in half.", "4 potatoes"),
        ("New potatoes, these are wee ones the size of a walnut, a pound and a half.", "1 1/2 pound new potatoes"),
        ("Sprinkle the flour on, a quarter cup, and keep it moving.", "1/4 cup flour"),
        ("Brown it in dripping, a good tablespoon, in two goes.", "1 tablespoon dripping"),
        ("How many tomatoes? Eight, the small ones.", "8 tomatoes"),
        ("Then pimento, the whole berries, ten of them.", "10 pimento"),
        ("Then turmeric, a teaspoon, the powder, and four lime leaves.", "1 teaspoon turmeric; 4 lime leaves"),
        // What is said of others, or of time, measures nothing.
        ("A pinch of salt. My dad drank eleven cups a day.", "1 pinch salt"),
        ("A pound of pork. We butchered two hogs last fall at three hundred and ten pounds apiece.", "1 pound pork"),
        ("A pound of groundnuts. At the wedding they cooked fifty kilos of groundnuts.", "1 pound groundnuts"),
        ("Bacon is six slices, chopped up.", "6 slice bacon"),
    ]);
}

#[test]
fn what_others_put_in_and_she_allows() {
    check(&[
        ("Some folk put chives through it, a tablespoon, chopped. I don't, but you could.", "1 tablespoon chives"),
        ("Some people put bacon through it, three rashers, chopped. That's up to you.", "3 slice bacon"),
        ("Some people put marshmallows, and if you want to it's a cup.", "1 cup marshmallows"),
        ("Some people put raisins, half a cup, I never do.", ""),
        ("My aunt puts raisins, half a cup. I think that is terrible.", ""),
        ("One cup of rice. And she's got milk warming in the other pot. Four cups.", "1 cup rice; 4 cup milk"),
    ]);
}

#[test]
fn a_list_goes_on_after_what_is_said_beside_it() {
    check(&[
        (
            "A cup of brown sugar, my grandmother used panela and if you find it use it, one teaspoon of cinnamon, and half a cup of raisins.",
            "1 cup brown sugar; 1 teaspoon cinnamon; 1/2 cup raisins",
        ),
        ("A tablespoon of oil so it doesn't burn one big onion chopped fine.", "1 tablespoon oil; 1 big onion"),
        ("When it is not red any more you put one tablespoon of sweet paprika.", "1 tablespoon sweet paprika"),
        ("A pound of pork not the lean stuff a teaspoon of rubbed sage.", "1 pound pork; 1 teaspoon rubbed sage"),
        ("A cup of white sugar and half a cup of brown pack it down good.", "1 cup white sugar; 1/2 cup brown sugar"),
        ("Put in an onion with four cloves stuck in it.", "1 onion; 4 cloves"),
        ("A cup and two thirds of warm water.", "1 2/3 cup warm water"),
        // What is refused stays out.
        ("Don't put a cup of water in it.", ""),
        ("Never add two tablespoons of vinegar.", ""),
        ("Not a teaspoon of paprika.", ""),
    ]);
}

#[test]
fn her_own_figure_after_the_usual_one() {
    check(&[
        ("Your eggs go in, three of them. Well, these are little, so I'm using four.", "4 eggs"),
        ("Salt, one teaspoon now and one teaspoon at the end.", "2 teaspoon salt"),
        ("A teaspoon of salt now and one at the end.", "2 teaspoon salt"),
        ("Flour, four cups, or it may take four and a half.", "4-4 1/2 cup flour"),
        ("Half a bunch of coriander. At the end the other half of the coriander.", "1 bunch coriander"),
        ("Four teaspoons of baking powder, hmm. I say four. It's three.", "3 teaspoon baking powder"),
        ("A teaspoon of cumin no put two teaspoons and a carrot.", "2 teaspoon cumin; 1 carrot"),
        ("Cayenne I use a half teaspoon but your mama can't take that so say a quarter.", "1/4 teaspoon cayenne"),
        ("Half a teaspoon of chilli powder. And salt, another half.", "1/2 teaspoon chilli powder; 1/2 teaspoon salt"),
        ("Two stalks of celery. Oh, and one more celery at the end.", "3 stalk celery"),
        // A case that is not hers, and a stalk that is thrown away, take nothing back.
        ("One tablespoon of salt, if you've got the fine kind then make it two teaspoons.", "1 tablespoon salt"),
        ("One bunch of parsley chopped very fine. No stalk.", "1 bunch parsley"),
    ]);
}
