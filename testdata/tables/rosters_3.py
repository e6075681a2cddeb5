"""Fresh lists of who comes: classes, choirs, clubs, families, consent,
      wheelchairs, languages, files, and no rosters."""

from kit import *

# ---------------------------------------------------------------- groups with counts
roster("groups", "house-teams", "Four houses of a school with how many pupils come.", csv("""
House,Pupils
Kestrel,48
Merlin,51
Osprey,44
Harrier,50
"""), ("Kestrel", 48), ("Merlin", 51), ("Osprey", 44), ("Harrier", 50))

roster("groups", "supporters-buses",
       "Supporters' branches with the bus they take and how many come; the bus is no number of people.", csv("""
Branch,Bus,Coming
Tarnside,1,46
Upper Mill,1,8
Coldbrook,2,39
Ferry Road,2,14
Total,,107
"""), ("Tarnside", 46), ("Upper Mill", 8), ("Coldbrook", 39), ("Ferry Road", 14))

roster("groups", "year-groups-book",
       "Year groups in a workbook with boys, girls and their sum by formula.", book(sheet("Numbers", """
Year|Boys|Girls|All
Year 7|41|38|=B2+C2~79
Year 8|36|44|=B3+C3~80
Year 9|30|33|=B4+C4~63
Total|=SUM(B2:B4)~107|=SUM(C2:C4)~115|=SUM(D2:D4)~222
""")), ("Year 7", 79), ("Year 8", 80), ("Year 9", 63), alts=[R(("7", 79), ("8", 80), ("9", 63))])

roster("groups", "parish-groups-remarks",
       "Parish groups with counts and remarks that say nothing about people.", csv("""
Group;How many;Contact;Remarks
Bell ringers;9;Wystan;come at 2 pm
Sunday school;27;Perpetua;bring 30 hats
Flower guild;12;Odile;
Choir;21;Wystan;sing at 3
"""), ("Bell ringers", 9), ("Sunday school", 27), ("Flower guild", 12), ("Choir", 21))

roster("groups", "departments-sign-up",
       "Departments of a works with employees and how many of them signed up; those who signed up come.", csv("""
Department,Employees,Signed up
Foundry,120,34
Paint shop,45,18
Office,60,22
Stores,15,6
,,80
"""), ("Foundry", 34), ("Paint shop", 18), ("Office", 22), ("Stores", 6))

roster("groups", "groups-with-helpers-inside",
       "Groups with all their people, and how many of those use a wheelchair or come along with one.", csv("""
Group,People in all,of these wheelchair users,of these carers
Meadow House,18,3,3
Swimming club,40,0,0
Drummers,25,1,0
"""), ("Meadow House", 18), ("Swimming club", 40), ("Drummers", 25), wheelchair=4, companion=3)

roster("groups", "groups-no-consent-count",
       "Classes with how many have no consent for pictures and how many forms are still out.", csv("""
Class,Pupils,Photo/film consent refused,Consent form not returned
3A,25,1,2
3B,26,0,4
4A,24,2,0
"""), ("3A", 25), ("3B", 26), ("4A", 24), not_filmed=3, film_unknown=6)

roster("groups", "cast-crew-audience",
       "Groups of a theatre of which the crew stays backstage and has no place, as the remark says.", csv("""
Group,People,Remark
Youth cast,22,
Dance class,18,
Crew,9,backstage - no seats needed
"""), ("Youth cast", 22), ("Dance class", 18), alts=[R(("Youth cast", 22), ("Dance class", 18), ("Crew", 9))])

roster("groups", "counted-by-day",
       "How many of each group come on Friday and on Saturday; the title says that the stunt is on Saturday.", csv("""
Card stunt on SATURDAY,,
Group,Friday,Saturday
Judo,20,16
Fencing,11,13
Handball,30,28
"""), ("Judo", 16), ("Fencing", 13), ("Handball", 28))

roster_ask("groups", "days-unsaid", "How many come on Friday and on Saturday, and nobody says which day it is for.",
           "Which day is the list for: Friday or Saturday?", csv("""
Group,Friday,Saturday
Judo,20,16
Fencing,11,13
Handball,30,28
"""))

roster_ask("groups", "between-and-plus", "Groups of which one says 20+ and one 15 to 18.",
           "How many come from the Gymnasts (20+) and the Cubs (15 to 18)?", csv("""
Group,People
Gymnasts,20+
Cubs,15 to 18
Recorder group,12
"""))

roster("groups", "title-date-and-total-line",
       "A title with a date, three bands with their people, and a sentence with the sum.", csv("""
Brass day 13 June - who comes
Band;People
Upper Mill Brass;31
Ferry Road Silver;28
Junior band;17
so we are 76 in all
"""), ("Upper Mill Brass", 31), ("Ferry Road Silver", 28), ("Junior band", 17))

roster("groups", "numbered-groups",
       "Groups numbered 1 to 4 with a name and a size; the numbers only count the lines.", csv("""
#,Group,Size
1,Anglers,14
2,Bowls club,22
3,Gardeners,17
4,Knitters,11
"""), ("Anglers", 14), ("Bowls club", 22), ("Gardeners", 17), ("Knitters", 11))

roster("groups", "classes-across-book",
       "Classes across, with pupils, teachers and the sum below.", book(sheet("Sheet1", """
|1a|1b|2a
Pupils|22|23|21
Teachers|1|1|2
Sum|=B2+B3~23|=C2+C3~24|=D2+D3~23
""")), ("1a", 23), ("1b", 24), ("2a", 23))

# ---------------------------------------------------------------- a line a person
roster("person", "band-by-instrument", "Seven players with their band and instrument; the band is the group.", csv("""
Name,Band,Instrument
Wystan Orr,Upper Mill Brass,cornet
Odile Farrow,Upper Mill Brass,tuba
Perpetua Lind,Upper Mill Brass,horn
Anselm Roke,Junior band,cornet
Jessamy Thorne,Junior band,drum
Corin Vale,Junior band,trombone
Linnet Ashby,Junior band,horn
"""), ("Upper Mill Brass", 3), ("Junior band", 4))

roster("person", "volunteers-form-export", "An export of a web form: time, names, e-mail, group; five people.", csv("""
Timestamp,Full name,E-mail,Which group are you with?
2026-04-02 18:11,Wystan Orr,w@example.org,Bell ringers
2026-04-02 18:40,Odile Farrow,o@example.org,Flower guild
2026-04-03 07:55,Perpetua Lind,p@example.org,Flower guild
2026-04-03 12:30,Anselm Roke,a@example.org,Bell ringers
2026-04-05 21:02,Jessamy Thorne,j@example.org,Flower guild
"""), ("Bell ringers", 2), ("Flower guild", 3))

roster("person", "surname-first-name-year",
       "Six pupils with last and first name, year and form; the form is the group.", csv("""
Surname;First name;Form
Orr;Wystan;8K
Farrow;Odile;8K
Lind;Perpetua;8K
Roke;Anselm;8M
Thorne;Jessamy;8M
Vale;Corin;8M
"""), ("8K", 3), ("8M", 3))

roster("person", "teams-as-headings-book",
       "Team names in bold over their players; seven people.", book(sheet("Teams", """
Handball
Wystan Orr
Odile Farrow
Perpetua Lind
|
Fencing
Anselm Roke
Jessamy Thorne
Corin Vale
Linnet Ashby
""", bold=[1, 6])), ("Handball", 3), ("Fencing", 4))

roster("person", "teams-as-headings-numbered",
       "Groups as headings with a colon; people numbered from 1 under each.", csv("""
Judo:
1. Wystan Orr
2. Odile Farrow
3. Perpetua Lind

Archery:
1. Anselm Roke
2. Jessamy Thorne
"""), ("Judo", 3), ("Archery", 2))

roster("person", "one-column-a-team", "Three teams in columns beside one another with names below.", csv("""
Red team,Blue team,Green team
Wystan Orr,Anselm Roke,Linnet Ashby
Odile Farrow,Jessamy Thorne,Tobiah Fell
Perpetua Lind,Corin Vale,
Basil Marl,,
"""), ("Red team", 4), ("Blue team", 3), ("Green team", 2))

roster("person", "sheet-a-class-first-last", "A sheet a class with first and last names.", book(sheet("2a", """
First|Last
Wystan|Orr
Odile|Farrow
Perpetua|Lind
"""), sheet("2b", """
First|Last
Anselm|Roke
Jessamy|Thorne
""")), ("2a", 3), ("2b", 2))

roster("person", "rsvp-column", "Answers to an invitation: yes comes, no does not; five of seven come.", csv("""
Name,Branch,RSVP
Wystan Orr,Tarnside,Yes
Odile Farrow,Tarnside,Yes
Perpetua Lind,Tarnside,No
Anselm Roke,Coldbrook,Yes
Jessamy Thorne,Coldbrook,Yes
Corin Vale,Coldbrook,No
Linnet Ashby,Coldbrook,Yes
"""), ("Tarnside", 2), ("Coldbrook", 3))

roster_ask("person", "rsvp-some-blank", "Answers to an invitation, of which two have not come.",
           "Perpetua and Corin have not answered: shall they be counted?", csv("""
Name,Branch,Coming?
Wystan Orr,Tarnside,yes
Odile Farrow,Tarnside,yes
Perpetua Lind,Tarnside,no answer yet
Anselm Roke,Coldbrook,yes
Jessamy Thorne,Coldbrook,no
Corin Vale,Coldbrook,no answer yet
"""))

roster("person", "struck-through-two",
       "Two names are struck through: they do not come; four do.", book(sheet("Sheet1", """
Name|Team
Wystan Orr|Bowls
~~Odile Farrow|~~Bowls
Perpetua Lind|Bowls
Anselm Roke|Anglers
~~Jessamy Thorne|~~Anglers
Corin Vale|Anglers
""")), ("Bowls", 2), ("Anglers", 2))

roster("person", "families-with-children", "Families with adults and children, a street as the group.", csv("""
Family,Street,Adults,Children
Orr,Mill Lane,2,3
Farrow,Mill Lane,1,2
Roke,Weir Street,2,0
Vale,Weir Street,2,4
"""), ("Mill Lane", 8), ("Weir Street", 8), alts=[R(("Orr", 5), ("Farrow", 3), ("Roke", 2), ("Vale", 6))])

roster("person", "plus-one-column", "Club members with a guest each or none; guests come too.", csv("""
Member,Guests
Wystan Orr,1
Odile Farrow,0
Perpetua Lind,2
Anselm Roke,
"""), ("", 7))

roster("person", "birthday-and-shirt-size",
       "Players with birthday and shirt size, which say nothing about groups; the squad does.", csv("""
Name,Born,Squad,Shirt
Wystan Orr,2009-03-12,U17,M
Odile Farrow,2009-07-30,U17,S
Perpetua Lind,2010-11-02,U16,M
Anselm Roke,2010-01-25,U16,L
"""), ("U17", 2), ("U16", 2))

roster("person", "group-merged-down",
       "Group names in merged cells beside their people, with a count in another merged cell.", book(sheet("List", """
Group|Number|Name
Anglers|3|Wystan Orr
||Odile Farrow
||Perpetua Lind
Bowls|2|Anselm Roke
||Jessamy Thorne
""", merge=["A2:A4", "B2:B4", "A5:A6", "B5:B6"])), ("Anglers", 3), ("Bowls", 2))

roster("person", "same-person-in-two-groups-said",
       "Corin is in two groups and sits with the Anglers, as the remark says; five people.", csv("""
Name,Group,Remark
Wystan Orr,Anglers,
Corin Vale,Anglers,
Odile Farrow,Anglers,
Corin Vale,Bowls,"same Corin, sits with the Anglers, don't count again"
Anselm Roke,Bowls,
Linnet Ashby,Bowls,
"""), ("Anglers", 3), ("Bowls", 2))

roster("person", "reserve-list-below",
       "Six come; two more are on the reserve list under the line and do not come as yet.", csv("""
Name,Class
Wystan Orr,7
Odile Farrow,7
Perpetua Lind,7
Anselm Roke,8
Jessamy Thorne,8
Corin Vale,8

Reserves (only if somebody is ill)
Linnet Ashby,8
Tobiah Fell,7
"""), ("7", 3), ("8", 3))

roster("person", "tally-of-attendance-with-show",
       "Attendance at two rehearsals and who comes to the show; only the last column counts.", csv("""
Name,Choir,Rehearsal 1,Rehearsal 2,Comes to the show
Wystan Orr,basses,x,x,x
Odile Farrow,altos,x,,x
Perpetua Lind,altos,,x,
Anselm Roke,basses,x,x,x
Jessamy Thorne,sopranos,x,x,x
Linnet Ashby,sopranos,,,x
"""), ("basses", 2), ("altos", 1), ("sopranos", 2))

roster("person", "attendance-list-blank",
       "An attendance list to be ticked on the day, still blank: everybody on it is expected.", csv("""
No.,Name,Group,Present?
1,Wystan Orr,Drummers,
2,Odile Farrow,Drummers,
3,Anselm Roke,Dancers,
4,Corin Vale,Dancers,
5,Linnet Ashby,Dancers,
"""), ("Drummers", 2), ("Dancers", 3))

# ---------------------------------------------------------------- wheelchairs and companions
roster("wheelchair", "access-needs-words",
       "Access needs in words: two wheelchairs, one who comes along with Odile, one hearing loop, one aisle seat.",
       csv("""
Name,Group,Access needs
Wystan Orr,Meadow House,uses a wheelchair
Odile Farrow,Meadow House,power wheelchair
Perpetua Lind,Meadow House,Odile's carer
Anselm Roke,Meadow House,hearing loop
Jessamy Thorne,Drummers,
Corin Vale,Drummers,aisle seat (long legs)
"""), ("Meadow House", 4), ("Drummers", 2), wheelchair=2, companion=1)

roster("wheelchair", "wheelchair-and-pa-columns",
       "W for a wheelchair, C for a companion in one column, as the line above says.", csv("""
W = wheelchair user / C = companion of one,,
Name,Team,W/C
Wystan Orr,Herons,W
Odile Farrow,Herons,C
Perpetua Lind,Herons,
Anselm Roke,Terns,
Jessamy Thorne,Terns,W
Corin Vale,Terns,C
"""), ("Herons", 3), ("Terns", 3), wheelchair=2, companion=2)

roster("wheelchair", "no-longer-needed", "One wheelchair; another remark says that none is needed any more.", csv("""
Name,Group,Note
Wystan Orr,Gardeners,wheelchair
Odile Farrow,Gardeners,doesn't need the wheelchair any longer
Perpetua Lind,Gardeners,brings cake
"""), ("Gardeners", 3), wheelchair=1)

roster("wheelchair", "true-false-wheelchair",
       "TRUE for those in a wheelchair; carers have a column of names, and their own lines.", book(sheet("Guests", """
Name|Group|Wheelchair|Carer's name
Wystan Orr|Meadow House|!TRUE|Odile Farrow
Odile Farrow|Meadow House|!FALSE|
Perpetua Lind|Meadow House|!FALSE|
Anselm Roke|Weir House|!TRUE|Jessamy Thorne
Jessamy Thorne|Weir House|!FALSE|
""")), ("Meadow House", 3), ("Weir House", 2), wheelchair=2, companion=2)

roster("wheelchair", "spaces-for-groups",
       "Groups with seats and wheelchair spaces counted apart: both are people.", csv("""
Group,Seats,Wheelchair spaces,Total
Meadow House,12,4,16
Weir House,10,1,11
Knitters,15,0,15
"""), ("Meadow House", 16), ("Weir House", 11), ("Knitters", 15), wheelchair=5)

# ---------------------------------------------------------------- filming
roster("film", "consent-form-states", "Consent forms: yes, no, and some that have not come back.", csv("""
Pupil,Class,Filming consent form
Wystan Orr,4,yes
Odile Farrow,4,yes
Perpetua Lind,4,no
Anselm Roke,5,not returned
Jessamy Thorne,5,yes
Corin Vale,5,
Linnet Ashby,5,no
"""), ("4", 3), ("5", 4), not_filmed=2, film_unknown=2)

roster("film", "may-appear-in-video", "A column May appear in video with Y and N; everybody has answered.", csv("""
Name,Squad,May appear in video?
Wystan Orr,U17,Y
Odile Farrow,U17,Y
Perpetua Lind,U17,N
Anselm Roke,U16,Y
Jessamy Thorne,U16,N
"""), ("U17", 3), ("U16", 2), not_filmed=2)

roster("film", "keep-off-camera", "A column Keep off camera: yes must not be filmed, no may be.", csv("""
Name,Group,Keep off camera
Wystan Orr,Cubs,no
Odile Farrow,Cubs,yes
Perpetua Lind,Cubs,no
Anselm Roke,Brownies,yes
Jessamy Thorne,Brownies,no
"""), ("Cubs", 3), ("Brownies", 2), not_filmed=2)

roster("film", "remarks-about-pictures", "Remarks of which one forbids pictures and one forbids nuts.", csv("""
Name;Class;Remarks
Wystan Orr;3b;no nuts!
Odile Farrow;3b;no pictures, please (parents)
Perpetua Lind;3b;
Anselm Roke;3c;loves being on film
Jessamy Thorne;3c;
"""), ("3b", 3), ("3c", 2), not_filmed=1)

roster("film", "yellow-cells-legend",
       "Yellow names must not be in the film, as the legend says.", book(sheet("Names", """
yellow = must not be in the film|
Name|Group
Wystan Orr|Cubs
[y]Odile Farrow|Cubs
Perpetua Lind|Cubs
Anselm Roke|Brownies
[y]Jessamy Thorne|Brownies
[y]Corin Vale|Brownies
""")), ("Cubs", 3), ("Brownies", 3), not_filmed=3)

roster("film", "newsletter-consent-trap",
       "Consent is for e-mail with the newsletter; it says nothing about being filmed.", csv("""
Name,Branch,Consent to newsletter
Wystan Orr,Tarnside,yes
Odile Farrow,Tarnside,no
Anselm Roke,Coldbrook,no
"""), ("Tarnside", 2), ("Coldbrook", 1))

roster("film", "photo-and-video-both-no",
       "Photo and video in two columns; who may not be on video must not be filmed, whatever photos say.", csv("""
Name,Class,Photo,Video
Wystan Orr,6,yes,yes
Odile Farrow,6,no,no
Perpetua Lind,6,yes,no
Anselm Roke,7,yes,yes
Jessamy Thorne,7,yes,
"""), ("6", 3), ("7", 2), not_filmed=2, film_unknown=1)

roster_ask("film", "tick-without-words", "A column headed with a camera sign and ticks beside some names.",
           "Do the ticks under the camera sign mean that people may be filmed or that they must not?", csv("""
Name,Class,📷
Wystan Orr,6,
Odile Farrow,6,✓
Perpetua Lind,6,
Anselm Roke,7,✓
"""))

roster("film", "groups-with-film-no-count",
       "Groups with a column of people who must not be filmed, some empty, which means none.", csv("""
Group,People,Not to be filmed
Cubs,18,2
Brownies,20,
Anglers,14,
Judo,16,1
"""), ("Cubs", 18), ("Brownies", 20), ("Anglers", 14), ("Judo", 16), not_filmed=3)

# ---------------------------------------------------------------- languages
roster("language", "de-vereine-teilnehmer",
       "Vereine mit Anzahl der Teilnehmer und Ansprechpartner; die Summe ist kein Verein.", csv("""
Verein;Ansprechpartner;Teilnehmer
Turnverein Nordwall;Odilo;42
Schützengilde;Mechthild;19
Spielmannszug;Veit;27
Summe;;88
""", enc="cp1252", eol="\r\n"), ("Turnverein Nordwall", 42), ("Schützengilde", 19), ("Spielmannszug", 27))

roster("language", "de-einwilligung-film", "Einwilligung Film: ja, nein, noch offen.", csv("""
Nachname;Vorname;Klasse;Einwilligung Film
Lohse;Veit;4a;ja
Brandt;Mechthild;4a;nein
Tamm;Odilo;4a;ja
Wieck;Rikke;4b;noch offen
Harms;Jost;4b;ja
Petersen;Silja;4b;nein
"""), ("4a", 3), ("4b", 3), not_filmed=2, film_unknown=1)

roster("language", "fr-associations", "Associations avec nombre d'inscrits, dont fauteuils roulants.", csv("""
Association;Inscrits;dont fauteuils
Les Archers;16;0
Chorale des Quais;31;2
Les Aînés;22;3
Total;69;5
"""), ("Les Archers", 16), ("Chorale des Quais", 31), ("Les Aînés", 22), wheelchair=5)

roster("language", "fr-autorisation-filmer", "Autorisation de filmer par élève : oui, non, en attente.", csv("""
Nom;Prénom;Classe;Autorisation de filmer
Verdon;Aubin;CM1;oui
Lacaze;Solène;CM1;non
Brun;Maël;CM2;oui
Ferrand;Élise;CM2;en attente
""", enc="cp1252"), ("CM1", 2), ("CM2", 2), not_filmed=1, film_unknown=1)

roster("language", "es-penas", "Peñas con número de personas y sillas de ruedas.", csv("""
Peña;Personas;Sillas de ruedas
La Marea;36;1
Los del Puente;24;0
El Faro Viejo;18;2
Total;78;3
"""), ("La Marea", 36), ("Los del Puente", 24), ("El Faro Viejo", 18), wheelchair=3)

roster("language", "nl-klassen-toestemming",
       "Klassen met aantal leerlingen en aantal zonder toestemming om te filmen.", csv("""
Klas;Leerlingen;Geen toestemming filmen
1A;24;2
1B;26;0
2C;23;1
"""), ("1A", 24), ("1B", 26), ("2C", 23), not_filmed=3)

roster("language", "da-hold-liste", "Hold med navne under; hver overskrift er et hold.", csv("""
Hold Rød
Asta Krogh
Birk Lund
Frode Hede

Hold Blå
Gry Skov
Ivar Bæk
"""), ("Hold Rød", 3), ("Hold Blå", 2), alts=[R(("Rød", 3), ("Blå", 2))])

roster("language", "pl-klasy", "Klasy z liczbą uczniów; suma nie jest klasą.", csv("""
Klasa;Liczba uczniów;Na wózku
4a;22;0
4b;24;1
5a;21;0
Razem;67;1
""", enc="cp1250"), ("4a", 22), ("4b", 24), ("5a", 21), wheelchair=1)

roster("language", "nb-deltakere", "Deltakere med gruppe og om de kan filmes.", csv("""
Navn;Gruppe;Kan filmes
Asta Krogh;Korps;ja
Birk Lund;Korps;nei
Frode Hede;Korps;ja
Gry Skov;Turn;ja
Ivar Bakk;Turn;
"""), ("Korps", 3), ("Turn", 2), not_filmed=1, film_unknown=1)

# ---------------------------------------------------------------- files
roster("file", "tabs-latin1-groups", "Tabs and ISO 8859-1: three groups.", csv("""
Groupe|Personnes
Théâtre|19
Fanfare|24
Élèves|33
""", sep="\t", enc="iso8859-1"), ("Théâtre", 19), ("Fanfare", 24), ("Élèves", 33))

roster("file", "hidden-group-of-last-year",
       "Five people; a hidden column has last year's group and an empty sheet lies behind.", book(sheet("2026", """
Name|Group 2025|Group
Wystan Orr|Bowls|Anglers
Odile Farrow|Anglers|Anglers
Perpetua Lind|Bowls|Bowls
Anselm Roke|Bowls|Bowls
Jessamy Thorne||Bowls
""", hidecols=["B"]), sheet("Sheet2", "")), ("Anglers", 2), ("Bowls", 3))

roster("file", "office-saved-people",
       "Saved by LibreOffice: six people of two teams under a merged title.", book(sheet("Sheet1", """
COLDBROOK FUN DAY - CARD STUNT||
Name|Team|Shirt
Wystan Orr|Red|M
Odile Farrow|Red|S
Perpetua Lind|Red|L
Anselm Roke|Blue|M
Jessamy Thorne|Blue|S
Corin Vale|Blue|M
""", merge=["A1:C1"], bold=[1, 2]), office=True), ("Red", 3), ("Blue", 3))

roster("dates", "age-bands-became-dates",
       "Age bands with children; 5-6 became 05-Jun, 7-8 became 07-Aug, 9-12 became 09-Dec.", csv("""
Age band,Children
05-Jun,14
07-Aug,19
09-Dec,23
"""), ("5-6", 14), ("7-8", 19), ("9-12", 23))

# ---------------------------------------------------------------- no roster
roster_ask("noroster", "raffle-prizes",
           "Prizes of a raffle, no people.", "These are prizes; where is the list of who comes?", csv("""
Prize,Given by,Value
Ham,Harkness butchers,20
Lantern,Olde & Vane,15
Scarf,Knitters,8
"""))
roster_ask("noroster", "seat-counts-of-a-hall",
           "Rows of chairs in a hall, no people.",
           "These are rows of chairs; where is the list of who comes?", book(sheet("Hall", """
Row|Chairs
A|12
B|12
C|14
""")))
roster_ask("noroster", "blank-sign-up-sheet",
           "A sheet to sign up on, numbered, nobody has signed yet.",
           "Nobody has signed up yet: where is the list of who comes?", csv("""
No.,Name,Group,OK to film?
1,,,
2,,,
3,,,
4,,,
"""))
roster_ask("noroster", "shifts-of-the-bar",
           "Shifts at the bar by hour, in which the same people recur; no list of who comes.",
           "These are shifts at the bar; where is the list of who comes?", csv("""
Hour,Bar 1,Bar 2
14-15,Wystan,Odile
15-16,Wystan,Anselm
16-17,Corin,Odile
"""))
