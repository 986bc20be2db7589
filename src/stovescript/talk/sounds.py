"""Sounds that captions note in round brackets, ``(laughs)``: data, common practice of captioners.

Words that a cook also says of the food (bubbling, popping, boiling, cracking) are left out.
"""

_ROWS = """
    music musical instrumental singing sings humming hums whistling whistles whistle jingle
    applause applauding clapping claps cheering cheers
    laughter laughing laughs laugh chuckling chuckles chuckle giggling giggles giggle
    sighing sighs sigh gasping gasps gasp groaning groans moans yawning yawns sobbing crying
    coughing coughs cough sneezing sneezes sniffing sniffs sniffles snorts inhaling inhales exhaling exhales
    whispering whispers mumbling mumbles inaudible indistinct unintelligible crosstalk
    barking barks meowing meows
    beeping beeps beep beeped buzzing buzzes buzzer chiming chimes chime dinging dings ding ringing rings
    clattering clatters clatter clanging clang clanking clanks clinking clinks clink clicking clicks click
    banging knocking knocks thuds thud creaking creaks squeaking squeaks rustling footsteps
    whirring whirs whooshing whooshes whoosh splashing splashes hissing hisses sizzling sizzles sizzle
    static noise noises silence pause
"""

SOUNDS = frozenset(_ROWS.split())
