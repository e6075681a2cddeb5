"""Who uses a wheelchair, who comes with whom, who must not be filmed; other languages; files; lists that are no roster."""

from kit import *

# ---------------------------------------------------------------- wheelchairs and companions
roster("wheelchair", "wheelchair-yes-no", "Six people, two of them in wheelchairs.", csv("""
Name,Group,Wheelchair
Tilda Marsh,Choir,no
Osk Wherry,Choir,yes
Kaja Fenn,Choir,no
Runa Skiff,Boat club,no
Mo Keel,Boat club,yes
Bryn Tarn,Boat club,no
"""), ("Choir", 3), ("Boat club", 3), wheelchair=2)

roster("wheelchair", "needs-column", "A column of needs: one wheelchair, one companion, one who wants an aisle seat, one allergy.", csv("""
Name,Group,Needs
Tilda Marsh,Lighthouse friends,wheelchair
Osk Wherry,Lighthouse friends,companion of Tilda
Kaja Fenn,Lighthouse friends,aisle seat please
Runa Skiff,Lighthouse friends,nut allergy
Mo Keel,Lighthouse friends,
"""), ("Lighthouse friends", 5), wheelchair=1, companion=1)

roster("wheelchair", "cross-in-columns", "Crosses in two columns: W/chair and Carer.", csv("""
Name;Group;W/chair;Carer
Tilda Marsh;Lighthouse friends;x;
Osk Wherry;Lighthouse friends;;x
Kaja Fenn;Lighthouse friends;x;
Runa Skiff;Lighthouse friends;;x
Mo Keel;Lighthouse friends;;
Bryn Tarn;Choir;;
"""), ("Lighthouse friends", 5), ("Choir", 1), wheelchair=2, companion=2)

roster("wheelchair", "role-words", "The role says who uses a wheelchair and who assists them.", csv("""
Name,Group,Role
Tilda Marsh,Choir,singer
Osk Wherry,Choir,wheelchair user
Kaja Fenn,Choir,personal assistant
Runa Skiff,Choir,singer
Mo Keel,Brass band,horn
Bryn Tarn,Brass band,in a wheelchair
Ines Quill,Brass band,pushes Bryn
"""), ("Choir", 4), ("Brass band", 3), wheelchair=2, companion=2)

roster("wheelchair", "group-counts-words", "Groups with wheelchairs and carers counted in the remark.", csv("""
Group,People,Remark
Lighthouse friends,20,"3 wheelchairs, 3 carers"
Harbour choir,34,1 wheelchair
Boat club,18,bring own cushions
"""), ("Lighthouse friends", 20), ("Harbour choir", 34), ("Boat club", 18), wheelchair=4, companion=3)

roster("wheelchair", "companion-named", "A column names the companion; the companions have their own lines.", csv("""
Name,Group,Wheelchair,Companion
Tilda Marsh,Choir,yes,Osk Wherry
Osk Wherry,Choir,,
Kaja Fenn,Choir,,
Runa Skiff,Boat club,yes,Mo Keel
Mo Keel,Boat club,,
"""), ("Choir", 3), ("Boat club", 2), wheelchair=2, companion=2)

roster("wheelchair", "step-free-trap", "Remarks on crutches and a pram are no wheelchairs; one wheelchair.", csv("""
Name,Group,Remark
Tilda Marsh,Choir,on crutches
Osk Wherry,Choir,brings a pram
Kaja Fenn,Choir,uses a wheelchair
Runa Skiff,Boat club,no wheelchair any more (healed!)
"""), ("Choir", 3), ("Boat club", 1), wheelchair=1)

roster("wheelchair", "wheelchair-numbers", "A column with 1 for a wheelchair and 0 for none.", book(sheet("Sheet1", """
Name|Group|Wheelchair place|Companions
Tilda Marsh|Choir|1|0
Osk Wherry|Choir|0|0
Kaja Fenn|Choir|0|0
Runa Skiff|Boat club|1|0
Mo Keel|Boat club|0|0
Sum||=SUM(C2:C6)~2|=SUM(D2:D6)~0
""")), ("Choir", 3), ("Boat club", 2), wheelchair=2)

roster("wheelchair", "mobility-column", "Two kinds of wheelchair, a stick, and one who comes along to help.", csv("""
Name;Group;Mobility
Tilda Marsh;Lighthouse friends;wheelchair user
Osk Wherry;Lighthouse friends;electric wheelchair
Kaja Fenn;Lighthouse friends;walks with a stick
Runa Skiff;Lighthouse friends;carer for Osk
Mo Keel;Lighthouse friends;none
"""), ("Lighthouse friends", 5), wheelchair=2, companion=1)

roster("wheelchair", "wheelchair-in-name-cell", "Wheelchair users are marked beside their names with (W), as the first line says; (C) is a companion.", csv("""
(W) = wheelchair / (C) = companion
Tilda Marsh (W)
Osk Wherry (C)
Kaja Fenn
Runa Skiff
Mo Keel (W)
"""), ("", 5), wheelchair=2, companion=1)

# ---------------------------------------------------------------- filming
roster("film", "film-ok-yes-no", "Six people; one must not be filmed, one cell is empty.", csv("""
Name,Group,Film OK?
Tilda Marsh,Choir,yes
Osk Wherry,Choir,no
Kaja Fenn,Choir,yes
Runa Skiff,Boat club,yes
Mo Keel,Boat club,
Bryn Tarn,Boat club,yes
"""), ("Choir", 3), ("Boat club", 3), not_filmed=1, film_unknown=1)

roster("film", "photo-release", "Photo releases signed, refused, or not back yet.", csv("""
Name,Class,Photo release
Tilda Marsh,5a,signed
Osk Wherry,5a,signed
Kaja Fenn,5a,refused
Runa Skiff,5b,not back yet
Mo Keel,5b,signed
Bryn Tarn,5b,refused
Ines Quill,5b,pending
"""), ("5a", 3), ("5b", 4), not_filmed=2, film_unknown=2)

roster("film", "no-photos-cross", "A cross under No photos means that this one must not be filmed; an empty cell means there is nothing against it.", csv("""
Name;Group;No photos
Tilda Marsh;Choir;
Osk Wherry;Choir;x
Kaja Fenn;Choir;
Runa Skiff;Boat club;
Mo Keel;Boat club;x
"""), ("Choir", 3), ("Boat club", 2), not_filmed=2,
       alts=[R(("Choir", 3), ("Boat club", 2), not_filmed=2, film_unknown=3)])

roster("film", "do-not-film-yes-no", "The column asks 'do not film?': yes means must not be filmed.", csv("""
Name,Group,Do not film?
Tilda Marsh,Choir,no
Osk Wherry,Choir,yes
Kaja Fenn,Choir,no
Runa Skiff,Boat club,no
Mo Keel,Boat club,no
"""), ("Choir", 3), ("Boat club", 2), not_filmed=1)

roster("film", "do-not-film-yes-no-gaps", "The column asks 'Opted out of filming' with yes and no, and two did not answer.", csv("""
Name,Group,Opted out of filming
Tilda Marsh,Choir,No
Osk Wherry,Choir,Yes
Kaja Fenn,Choir,
Runa Skiff,Boat club,No
Mo Keel,Boat club,?
"""), ("Choir", 3), ("Boat club", 2), not_filmed=1, film_unknown=2)

roster("film", "remarks-do-not-film", "Remarks of which two say not to film; the other remarks are about other things.", csv("""
Name,Group,Remarks
Tilda Marsh,Choir,
Osk Wherry,Choir,do not film
Kaja Fenn,Choir,vegetarian
Runa Skiff,Boat club,NO PHOTOS!!
Mo Keel,Boat club,comes with Runa
Bryn Tarn,Boat club,
"""), ("Choir", 3), ("Boat club", 3), not_filmed=2)

roster("film", "gdpr-form", "GDPR consent for film: given, withheld, withdrawn, missing.", csv("""
Name,Team,GDPR film consent
Tilda Marsh,Terns,given
Osk Wherry,Terns,withheld
Kaja Fenn,Terns,given
Runa Skiff,Herons,withdrawn
Mo Keel,Herons,missing
Bryn Tarn,Herons,given
"""), ("Terns", 3), ("Herons", 3), not_filmed=2, film_unknown=1)

roster("film", "trip-consent-trap", "The parents' consent is for the bus trip, not for filming; nothing is said about filming.", csv("""
Name,Class,Parents' consent (bus trip)
Tilda Marsh,5a,yes
Osk Wherry,5a,no
Kaja Fenn,5a,yes
Runa Skiff,5b,yes
"""), ("5a", 3), ("5b", 1))

roster("film", "ticks-and-crosses", "Ticks and crosses: ✓ may be filmed, ✗ must not.", csv("""
Name,Group,Media consent
Tilda Marsh,Choir,✓
Osk Wherry,Choir,✗
Kaja Fenn,Choir,✓
Runa Skiff,Boat club,✓
Mo Keel,Boat club,
"""), ("Choir", 3), ("Boat club", 2), not_filmed=1, film_unknown=1)

roster("film", "true-false-book", "TRUE and FALSE under May be filmed.", book(sheet("Sheet1", """
Name|Class|May be filmed
Tilda Marsh|6|!TRUE
Osk Wherry|6|!TRUE
Kaja Fenn|6|!FALSE
Runa Skiff|7|!TRUE
Mo Keel|7|!FALSE
""")), ("6", 3), ("7", 2), not_filmed=2)

roster("film", "both-columns", "Wheelchair and film columns side by side with short answers y and n.", csv("""
Name,Group,WCh,Film
Tilda Marsh,Lighthouse friends,y,y
Osk Wherry,Lighthouse friends,n,y
Kaja Fenn,Lighthouse friends,n,n
Runa Skiff,Lighthouse friends,y,n
Mo Keel,Choir,n,y
Bryn Tarn,Choir,n,
"""), ("Lighthouse friends", 4), ("Choir", 2), wheelchair=2, not_filmed=2, film_unknown=1)

roster("film", "key-in-title", "A key above: F may be filmed, N not, U not yet asked.", csv("""
F = may be filmed / N = not / U = not asked yet,,
Name,Class,F/N/U
Tilda Marsh,5a,F
Osk Wherry,5a,N
Kaja Fenn,5a,F
Runa Skiff,5b,U
Mo Keel,5b,F
Bryn Tarn,5b,U
"""), ("5a", 3), ("5b", 3), not_filmed=1, film_unknown=2)

roster_ask("film", "form-without-saying", "A column Form with yes and no, and nobody says which form.",
           "What is the form for: may those with no not be filmed, or is it another form?", csv("""
Name,Class,Form
Tilda Marsh,5a,yes
Osk Wherry,5a,no
Kaja Fenn,5a,yes
Runa Skiff,5b,no
"""))

roster_ask("film", "film-cross-unclear", "A column Photo with crosses for some.",
           "Does a cross under Photo mean that they may be filmed or that they must not?", csv("""
Name,Group,Photo
Tilda Marsh,Choir,
Osk Wherry,Choir,x
Kaja Fenn,Choir,
Runa Skiff,Boat club,x
Mo Keel,Boat club,
"""))

roster("film", "red-names-key", "Red cells are people who must not be filmed, as the last line says.", book(sheet("Sheet1", """
Name|Group
Tilda Marsh|Choir
[r]Osk Wherry|Choir
Kaja Fenn|Choir
Runa Skiff|Boat club
[r]Mo Keel|Boat club
|
red = must not be filmed|
""")), ("Choir", 3), ("Boat club", 2), not_filmed=2)

roster("film", "under-sixteen", "A column under 16 and a column of film permission; the age says nothing about filming.", csv("""
Name,Group,Under 16,Permission to film
Tilda Marsh,Choir,no,granted
Osk Wherry,Choir,yes,denied
Kaja Fenn,Choir,yes,granted
Runa Skiff,Boat club,no,not granted
Mo Keel,Boat club,yes,unknown
"""), ("Choir", 3), ("Boat club", 2), not_filmed=2, film_unknown=1)

roster("film", "groups-film-sentences", "Groups with counts, filming told in words.", csv("""
Group,People,About filming
Class 5,24,"all may be filmed except 2"
Class 6,22,all may be filmed
Class 7,25,3 must not be filmed
"""), ("Class 5", 24), ("Class 6", 22), ("Class 7", 25), not_filmed=5)

roster("film", "group-that-may-not", "One whole group must not be filmed.", csv("""
Group,People,Film
Harbour choir,30,yes
Harbour house,12,no - nobody of them
Boat club,21,yes
"""), ("Harbour choir", 30), ("Harbour house", 12), ("Boat club", 21), not_filmed=12)

roster("film", "image-rights-long-words", "Long answers in a column about pictures.", csv("""
Name,Team,Are we allowed to show you in the film?
Tilda Marsh,Terns,Yes of course
Osk Wherry,Terns,"No, please not"
Kaja Fenn,Terns,I don't mind
Runa Skiff,Herons,don't know yet
Mo Keel,Herons,Absolutely not
"""), ("Terns", 3), ("Herons", 2), not_filmed=2, film_unknown=1)

roster("film", "film-and-photo-apart", "Film and photo permission in two columns; it is the film that counts.", csv("""
Name,Class,Photo OK,Film OK
Tilda Marsh,5a,yes,yes
Osk Wherry,5a,yes,no
Kaja Fenn,5a,no,no
Runa Skiff,5b,yes,yes
"""), ("5a", 3), ("5b", 1), not_filmed=2)

roster("film", "only-some-cells-filled", "Consent was asked of class 5b alone; of 5a the cells are empty.", csv("""
Name,Class,Media consent
Tilda Marsh,5a,
Osk Wherry,5a,
Kaja Fenn,5b,yes
Runa Skiff,5b,no
Mo Keel,5b,yes
"""), ("5a", 2), ("5b", 3), not_filmed=1, film_unknown=2)

# ---------------------------------------------------------------- other languages
roster("language", "de-klassen", "Klassen mit Anzahl, davon im Rollstuhl und ohne Fotoerlaubnis.", csv("""
Klasse;Anzahl;davon Rollstuhl;ohne Fotoerlaubnis
5a;24;1;2
5b;23;0;0
6a;26;0;3
Summe;73;1;5
"""), ("5a", 24), ("5b", 23), ("6a", 26), wheelchair=1, not_filmed=5)

roster("language", "de-fotoerlaubnis", "Fotoerlaubnis ja oder nein, eine fehlt noch.", csv("""
Name;Vorname;Gruppe;Fotoerlaubnis
Deich;Tilda;Hafenchor;ja
Kahn;Osk;Hafenchor;nein
Möwe;Kaja;Hafenchor;ja
Düne;Runa;Bootsclub;fehlt noch
Priel;Mo;Bootsclub;ja
""", enc="cp1252", eol="\r\n"), ("Hafenchor", 3), ("Bootsclub", 2), not_filmed=1, film_unknown=1)

roster("language", "de-begleitung", "Rollstuhl und Begleitperson mit Kreuzen.", csv("""
Name;Gruppe;Rollstuhl;Begleitperson
Tilda Deich;Leuchtturmfreunde;x;
Osk Kahn;Leuchtturmfreunde;;x
Kaja Möwe;Leuchtturmfreunde;;
Runa Düne;Hafenchor;;
"""), ("Leuchtturmfreunde", 3), ("Hafenchor", 1), wheelchair=1, companion=1)

roster("language", "de-nicht-filmen", "Bemerkungen, von denen eine sagt: bitte nicht filmen.", csv("""
Name;Verein;Bemerkung
Tilda Deich;Ruderer;
Osk Kahn;Ruderer;bitte nicht filmen
Kaja Möwe;Ruderer;kommt später
Runa Düne;Bläser;
"""), ("Ruderer", 3), ("Bläser", 1), not_filmed=1)

roster("language", "fr-droit-image", "Droit à l'image : oui, non, ou rien.", csv("""
Nom;Classe;Droit à l'image
Tilda Grève;6e;oui
Osk Digue;6e;non
Kaja Mouette;6e;oui
Runa Marée;5e;
Mo Quai;5e;oui
"""), ("6e", 3), ("5e", 2), not_filmed=1, film_unknown=1)

roster("language", "fr-groupes", "Groupes avec nombre de personnes et fauteuils roulants.", csv("""
Groupe;Personnes;Fauteuils roulants;Accompagnateurs
Chorale du port;32;1;1
Club nautique;18;0;0
Total;50;1;1
""", enc="iso8859-15"), ("Chorale du port", 32), ("Club nautique", 18), wheelchair=1, companion=1)

roster("language", "es-imagen", "Autorización de imagen: sí o no; una silla de ruedas.", csv("""
Nombre;Grupo;Silla de ruedas;Autoriza imagen
Tilda Ola;Coro;no;sí
Osk Faro;Coro;sí;sí
Kaja Duna;Coro;no;no
Runa Brisa;Club de vela;no;sí
"""), ("Coro", 3), ("Club de vela", 1), wheelchair=1, not_filmed=1)

roster("language", "nl-toestemming", "Toestemming voor foto's: ja, nee, onbekend.", csv("""
Naam;Groep;Toestemming foto/film
Tilda Golf;Havenkoor;ja
Osk Steiger;Havenkoor;nee
Kaja Meeuw;Havenkoor;onbekend
Runa Duin;Bootclub;ja
"""), ("Havenkoor", 3), ("Bootclub", 1), not_filmed=1, film_unknown=1)

roster("language", "it-gruppi", "Gruppi con il numero di persone; il totale non è un gruppo.", csv("""
Gruppo;Persone
Coro del porto;28
Circolo nautico;17
Banda;22
Totale;67
"""), ("Coro del porto", 28), ("Circolo nautico", 17), ("Banda", 22))

roster("language", "sv-klasser", "Klasser med antal elever och hur många som inte får filmas.", csv("""
Klass;Antal;Får ej filmas
4A;22;1
4B;24;0
5A;21;2
"""), ("4A", 22), ("4B", 24), ("5A", 21), not_filmed=3)

# ---------------------------------------------------------------- files and workbooks
roster("file", "utf16-tabs", "UTF-16 with tabs: five people in two groups.", csv("""
Name|Gruppe
Tilda Deich|Chor
Osk Kahn|Chor
Kaja Möwe|Chor
Runa Düne|Ruderer
Mo Priel|Ruderer
""", sep="\t", enc="utf-16-le-bom", eol="\r\n"), ("Chor", 3), ("Ruderer", 2))

roster("file", "bom-and-semicolons", "Groups with a byte order mark, semicolons.", csv("""
Group;People
Café neighbours;14
Harbour choir;33
""", enc="utf-8-sig", eol="\r\n"), ("Café neighbours", 14), ("Harbour choir", 33))

roster("file", "quoted-commas", "Names with commas inside quotes: last name, first name.", csv("""
"Name","Group"
"Marsh, Tilda","Choir"
"Wherry, Osk","Choir"
"Skiff, Runa","Boat club, seniors"
"Keel, Mo","Boat club, seniors"
"""), ("Choir", 2), ("Boat club, seniors", 2))

roster("file", "two-sheets-one-old", "The sheet Who comes counts; the sheet last year does not.", book(sheet("Who comes", """
Group|People
Harbour choir|31
Boat club|22
"""), sheet("last year", """
Group|People
Harbour choir|40
Rope jumpers|15
""")), ("Harbour choir", 31), ("Boat club", 22))

roster("file", "hidden-column", "A hidden column has made-up phone numbers; five people.", book(sheet("Sheet1", """
Name|Phone|Group
Tilda Marsh|5550101|Choir
Osk Wherry|5550102|Choir
Kaja Fenn|5550103|Choir
Runa Skiff|5550104|Boat club
Mo Keel|5550105|Boat club
""", hidecols=["B"])), ("Choir", 3), ("Boat club", 2))

roster("file", "office-saved-groups", "Saved by LibreOffice: groups with merged title and a sum.", book(sheet("Groups", """
WHO COMES TO THE LANTERN FAIR|
Group|People
Harbour choir|29
Boat club|17
Lamp makers|11
Sum|=SUM(B3:B5)~57
""", merge=["A1:B1"], bold=[1]), office=True), ("Harbour choir", 29), ("Boat club", 17), ("Lamp makers", 11))

roster("file", "counts-as-text", "Counts kept as text.", book(sheet("Sheet1", """
Group|People
Harbour choir|'29
Boat club|' 17
""")), ("Harbour choir", 29), ("Boat club", 17))

roster("file", "groups-across", "Groups across, counts below.", csv("""
,Harbour choir,Boat club,Rope jumpers,Total
People,30,20,12,62
Wheelchairs,1,0,0,1
Not to be filmed,2,1,0,3
"""), ("Harbour choir", 30), ("Boat club", 20), ("Rope jumpers", 12), wheelchair=1, not_filmed=3)

# ---------------------------------------------------------------- no roster
roster_ask("noroster", "headings-alone", "Headings without people.", "There is nobody under the headings.", csv("""
Name,Group,Wheelchair,Film OK
"""))
roster_ask("noroster", "empty-file", "An empty file.", "There is nothing in it.", csv("", end=False))
roster_ask("noroster", "a-stand", "Rows of a stand with seats, no people.", "These are rows of seats; where is the list of who comes?", csv("""
Section,Row,Seats
A,1,1-18
A,2,1-18
B,1,1-12
"""))
roster_ask("noroster", "what-to-buy", "What to buy, no people.", "This is a shopping list; where is the list of who comes?", csv("""
Item,Pieces,Who buys
Card stock,400,Osk
Tape,12,Mo
Buns,60,Runa
"""))
roster_ask("noroster", "rehearsal-days", "Days and times of rehearsals, no people.", "These are days; where is the list of who comes?", csv("""
Day,Time,Place
Sat 7 March,14:00,Quay
Sun 8 March,11:00,Hall
"""))
