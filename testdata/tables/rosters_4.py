"""Untidy lists of who comes, with several things in them at once."""

from kit import *

roster("person", "all-in-one-book",
       "A title, a contact, two groups as headings with their counts, wheelchair and film columns, a sum below.",
       book(sheet("WHO", """
LANTERN NIGHT - who sits in the stand||||
questions: Edda, 555 0133||||
||||
Name|W/chair|Film?|Remark|
Bell ringers (4)||||
Wystan Orr||yes||
Odile Farrow|x|yes||
Perpetua Lind||no||
Basil Marl||yes|late, comes at 3|
Gardeners (3)||||
Anselm Roke||yes||
Jessamy Thorne||not asked yet||
Corin Vale|x|no|with dog|
||||
all together|7|||
""", merge=["A1:E1"], bold=[1, 4, 5, 10])), ("Bell ringers", 4), ("Gardeners", 3), wheelchair=2,
      not_filmed=2, film_unknown=1)

roster("person", "two-lists-beside",
       "Two lists beside one another, each with its group's name over it and numbered lines.", book(sheet("Sheet1", """
Herons|||Terns|
No.|Name||No.|Name
1|Wystan Orr||1|Anselm Roke
2|Odile Farrow||2|Jessamy Thorne
3|Perpetua Lind||3|Corin Vale
4|Basil Marl|||
""", merge=["A1:B1", "D1:E1"])), ("Herons", 4), ("Terns", 3))

roster("person", "message-of-names",
       "A message with names after each group's name, separated by commas and an and.", csv("""
Hello! these will come:
"Judo: Wystan Orr, Odile Farrow and Perpetua Lind"
"Archery: Anselm Roke, Jessamy Thorne"
"""), ("Judo", 3), ("Archery", 2))

roster("person", "cancelled-and-added",
       "Remarks in a status column: two cancelled, one was added instead; five come.", csv("""
Name,Group,Status
Wystan Orr,Knitters,confirmed
Odile Farrow,Knitters,cancelled 3 May
Perpetua Lind,Knitters,confirmed
Anselm Roke,Anglers,confirmed
Jessamy Thorne,Anglers,CANCELLED
Corin Vale,Anglers,added instead of Jessamy
Linnet Ashby,Anglers,confirmed
"""), ("Knitters", 2), ("Anglers", 3))

roster("person", "headings-again-on-each-page",
       "A printed list whose headings come again on each page, with page numbers; six people.", csv("""
Form,Surname,First name
9A,Orr,Wystan
9A,Farrow,Odile
9A,Lind,Perpetua
Page 1 of 2,,
Form,Surname,First name
9B,Roke,Anselm
9B,Thorne,Jessamy
9B,Vale,Corin
Page 2 of 2,,
"""), ("9A", 3), ("9B", 3))

roster("person", "unnamed-places",
       "Named people and three places kept for players not yet named; all of them come.", csv("""
Name,Team
Wystan Orr,Herons
Odile Farrow,Herons
player to be named,Herons
Anselm Roke,Terns
player to be named,Terns
player to be named,Terns
"""), ("Herons", 3), ("Terns", 3))

roster("person", "street-as-a-heading",
       "Families under the names of streets, with how many persons in brackets.", csv("""
Mill Lane
Orr (4)
Farrow (2)
Lind (5)
Weir Street
Roke (3)
Vale (1)
"""), ("Mill Lane", 11), ("Weir Street", 4),
       alts=[R(("Orr", 4), ("Farrow", 2), ("Lind", 5), ("Roke", 3), ("Vale", 1))])

roster_ask("person", "two-groups-in-one-cell",
           "One person stands in two groups at once.",
           "Does Corin sit with the Judo or with the Archery group?", csv("""
Name,Group
Wystan Orr,Judo
Odile Farrow,Judo
Corin Vale,Judo / Archery
Anselm Roke,Archery
"""))

roster("groups", "yes-and-no-counts",
       "Answers counted a group: who said yes is sure to come; the others are not counted.", csv("""
Group,Yes,No
Judo,14,3
Archery,9,6
Handball,22,0
"""), ("Judo", 14), ("Archery", 9), ("Handball", 22))

roster_ask("groups", "yes-and-maybe-counts",
           "Answers counted a group, of which many are maybe.",
           "Shall those who said maybe (5, 2 and 11) be counted?", csv("""
Group,Yes,Maybe
Judo,14,5
Archery,9,2
Handball,22,11
"""))

roster("groups", "book-with-notes-and-total",
       "Groups with counts in words and numbers, a note in a merged line, and a total that agrees.",
       book(sheet("May", """
|How many?|
Cubs|24 children + 3 leaders|
Brownies|18 children + 2 leaders|
please tell us by Friday if numbers change!||
Recorder group|11|
Total|58|
""", merge=["A4:C4"])), ("Cubs", 27), ("Brownies", 20), ("Recorder group", 11))

roster("groups", "changed-numbers", "Numbers that were changed later: now 26, was 22.", csv("""
Group,People
Cubs,22 -> 26
Brownies,18
Judo,15 (was 19)
"""), ("Cubs", 26), ("Brownies", 18), ("Judo", 15))

roster("film", "film-words-every-way", "Answers about filming in every way of writing yes and no.", csv("""
Name,Form,OK to be filmed?
Wystan Orr,9A,Yes
Odile Farrow,9A,YES!
Perpetua Lind,9A,ok
Basil Marl,9A,nope
Anselm Roke,9B,No thanks
Jessamy Thorne,9B,fine
Corin Vale,9B,ask mum
Linnet Ashby,9B,
"""), ("9A", 4), ("9B", 4), not_filmed=2, film_unknown=2)

roster("film", "separate-list-of-the-unfilmed",
       "The first sheet lists who comes; the second lists who must not be filmed, by name.", book(sheet("All", """
Name|Form
Wystan Orr|9A
Odile Farrow|9A
Perpetua Lind|9A
Anselm Roke|9B
Jessamy Thorne|9B
"""), sheet("NO FILMING", """
Name
Odile Farrow
Jessamy Thorne
""")), ("9A", 3), ("9B", 2), not_filmed=2)

roster("film", "names-below-not-filmed", "A line below says that two of those above must not be filmed.", csv("""
Name,Group
Wystan Orr,Cubs
Odile Farrow,Cubs
Perpetua Lind,Cubs
Anselm Roke,Brownies
Jessamy Thorne,Brownies
,
NOT to be filmed: Odile and Anselm!,
"""), ("Cubs", 3), ("Brownies", 2), not_filmed=2)

roster("wheelchair", "wheelchairs-in-the-heading",
       "Group headings with counts and wheelchairs told in them, names below.", csv("""
Meadow House - 3 people (1 wheelchair)
Wystan Orr (wheelchair)
Odile Farrow
Perpetua Lind
Weir House - 2 people
Anselm Roke
Jessamy Thorne
"""), ("Meadow House", 3), ("Weir House", 2), wheelchair=1)

roster("language", "de-mit-begleitung",
       "Gäste mit Rollstuhl und Begleitung, die nicht eigens in der Liste steht, aber auch kommt.", csv("""
Name;Gruppe;Rollstuhl;bringt Begleitperson mit
Veit Lohse;Haus am Wehr;ja;ja (1)
Mechthild Brandt;Haus am Wehr;nein;nein
Odilo Tamm;Haus am Wehr;ja;ja (1)
Rikke Wieck;Gartenfreunde;nein;nein
"""), ("Haus am Wehr", 5), ("Gartenfreunde", 1), wheelchair=2, companion=2)

roster("language", "fr-liste-barree", "Deux noms sont barrés : ils ne viennent pas.", book(sheet("Liste", """
Nom|Groupe|Image
Aubin Verdon|Fanfare|oui
~~Solène Lacaze|~~Fanfare|~~oui
Maël Brun|Fanfare|non
Élise Ferrand|Archers|oui
~~Anaïs Pons|~~Archers|~~non
Loïc Mercy|Archers|
""")), ("Fanfare", 2), ("Archers", 2), not_filmed=1, film_unknown=1)

roster("language", "es-lista-asistentes",
       "Lista de asistentes por clases; dos no vienen y a uno no se le puede grabar.", csv("""
Nombre;Clase;¿Viene?;Se puede grabar
Alba Ríos;3ºA;sí;sí
Iván Soto;3ºA;sí;no
Nerea Vidal;3ºA;no;sí
Pau Ferrer;3ºB;sí;sí
Lúa Castro;3ºB;no;no
""", enc="cp1252"), ("3ºA", 2), ("3ºB", 1), not_filmed=1)
