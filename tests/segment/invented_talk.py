"""Pieces of an invented show, put together in different ways by the tests of cutting."""

HELLO = "Hello and welcome to the Ferry House kitchen."
TWO = "We have two dishes for you today."
GOODBYE = "Thank you for watching and see you next week."

SOUP = """The soup goes on first because it takes the longest. Two tablespoons of oil in the big pot, over a medium
heat. In goes one onion, chopped, two sticks of celery and three carrots. Give that ten minutes with the
lid on. Then a cup of pearl barley, two litres of stock and a teaspoon of salt. Bring it to a boil, turn
it down low and let it go for forty minutes. A handful of parsley goes in at the end."""

LOAF = """Five hundred grams of flour go in the bowl, with two teaspoons of yeast and a teaspoon of salt. Add three
hundred millilitres of water and a tablespoon of honey. Knead it for ten minutes. Fold in half a cup of
sunflower seeds. Leave it for an hour under a cloth. Bake it at 220 degrees for thirty five minutes."""

# Measures again what the soup measured.
TART = """Five hundred grams of flour, a teaspoon of salt, two onions, three carrots and two tablespoons of oil go
in the bowl. A cup of cream and half a cup of cheese go on top. Bake it for forty minutes."""

QUIET = """It is a good colour, and the whole house smells of it, which is what you want on a day like this one. You
can see how it has thickened and how everything in it has gone soft without falling to bits. I could eat
it standing here."""

SERVED = """That serves six people. Have a taste of that. Oh, that's delicious. Bowl of that and you are set up for
the day. There you have it."""

INTO_VISIT = "Last Thursday I drove out to see the mill at Harrow Reach. This is where I went."
VISIT = """So how long have you been milling here, Mr Dunmore?
My grandfather built the wheel. We grind about forty tons a year now.
And where does the grain come from?
From six farms along the river. We pay them by the ton. In my father's day it was two hundred farms.
What happens in a dry year?
Then the wheel stands still and we sell nothing. We had eleven weeks of that.
And do you ever think of an engine?
My wife does. I don't. It was a pleasure to see you here.
Thank you for having us."""
BACK = "Back in the kitchen."


def show(*pieces: str) -> str:
    """The pieces as one talk, a cue for each line."""
    return "\n".join(pieces)
