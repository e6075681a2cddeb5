"""Who comes: groups with counts, a person a line, who uses a wheelchair, who must not be filmed."""

from kit import *

# ---------------------------------------------------------------- groups with counts
roster("groups", "three-groups", "Three groups with how many come.", csv("""
Group,People
Harbour choir,40
Rope jumpers,22
Boat club,31
"""), ("Harbour choir", 40), ("Rope jumpers", 22), ("Boat club", 31))

roster("groups", "groups-total", "Five classes of the Saltmarsh school; the total is no group.", csv("""
SALTMARSH SCHOOL - who comes to the Lantern Fair
,
Class,Number
3a,24
3b,22
4a,25
4b,23
5,27
Total,121
"""), ("3a", 24), ("3b", 22), ("4a", 25), ("4b", 23), ("5", 27))

roster("groups", "groups-with-wheelchairs", "Groups with how many of them use a wheelchair and how many companions come for them.", csv("""
Group,People,of which wheelchair users,of which companions
Harbour choir,36,2,2
Rope jumpers,18,0,0
Lighthouse friends,24,3,2
Total,78,5,4
"""), ("Harbour choir", 36), ("Rope jumpers", 18), ("Lighthouse friends", 24), wheelchair=5, companion=4)

roster("groups", "groups-not-filmed", "Groups with how many must not be filmed.", csv("""
Group;Coming;Must not be filmed
Class 6;26;2
Class 7;24;
Class 8;28;1
Sum;78;3
"""), ("Class 6", 26), ("Class 7", 24), ("Class 8", 28), not_filmed=3)

roster("groups", "adults-and-children", "Groups with adults and children and their sum.", csv("""
Group,Adults,Children,All
Boat club,12,9,21
Quay street neighbours,20,14,34
Brass band,16,2,18
All,48,25,73
"""), ("Boat club", 21), ("Quay street neighbours", 34), ("Brass band", 18))

roster("groups", "adults-and-children-no-sum", "Groups with adults and children, to be added.", csv("""
Club,Adults,Kids
Terns,11,8
Herons,9,12
"""), ("Terns", 19), ("Herons", 21))

roster("groups", "subtotals", "Groups of two schools with a subtotal each and a grand total, which are no groups.", csv("""
School,Class,People
Saltmarsh,5,25
Saltmarsh,6,24
Saltmarsh total,,49
Mole Road,5,21
Mole Road,6,23
Mole Road total,,44
Grand total,,93
"""), ("Saltmarsh 5", 25), ("Saltmarsh 6", 24), ("Mole Road 5", 21), ("Mole Road 6", 23),
       alts=[R(("5", 25), ("6", 24), ("5", 21), ("6", 23)), R(("Saltmarsh", 49), ("Mole Road", 44))])

roster("groups", "groups-book-sum", "Groups in a workbook with a sum by formula.", book(sheet("Who comes", """
Lantern Fair - groups||
Group|Leader|People
Harbour choir|Tilda Marsh|38
Rope jumpers|Osk Wherry|20
Boat club|Runa Skiff|27
Total||=SUM(C3:C5)~85
""", merge=["A1:C1"], bold=[1, 2])), ("Harbour choir", 38), ("Rope jumpers", 20), ("Boat club", 27))

roster("groups", "with-contact-numbers", "Groups with made-up phone numbers and arrival times; only one column counts people.", csv("""
Group,Contact,Phone,Arrives,People
Harbour choir,Tilda,555 0101,14:00,33
Boat club,Runa,555 0102,14:15,21
Lamp makers,Osk,555 0103,13:45,12
"""), ("Harbour choir", 33), ("Boat club", 21), ("Lamp makers", 12))

roster("groups", "count-with-words", "Counts written with words beside them.", csv("""
Who,How many
Fire brigade youth,15 people
Harbour choir,32 (incl. 2 in wheelchairs)
Brass band,18 pers.
"""), ("Fire brigade youth", 15), ("Harbour choir", 32), ("Brass band", 18), wheelchair=2)

roster_ask("groups", "about-thirty", "Groups of which two are guesses.", "The boat club is about 30, the neighbours 20-25: how many shall be counted?", csv("""
Group,People
Harbour choir,36
Boat club,about 30
Neighbours,20-25
"""))

roster_ask("groups", "no-answer-yet", "Groups of which one has not answered.", "The Rope jumpers have not said how many come.", csv("""
Group,People
Harbour choir,36
Rope jumpers,?
Boat club,19
"""))

roster("groups", "zero-comes", "Three groups, of which the boat club said that nobody comes.", csv("""
Group,People
Harbour choir,36
Boat club,0
Brass band,17
"""), ("Harbour choir", 36), ("Brass band", 17), alts=[R(("Harbour choir", 36), ("Boat club", 0), ("Brass band", 17))])

roster("groups", "last-year-and-this", "Groups with last year's count and this year's; this year's counts.", csv("""
Group,2025,2026 (this year)
Harbour choir,41,36
Rope jumpers,15,22
Boat club,30,28
"""), ("Harbour choir", 36), ("Rope jumpers", 22), ("Boat club", 28))

roster("groups", "invited-and-coming", "Groups with how many were invited and how many come; who comes counts.", csv("""
Group,Invited,Said yes
Class 5,28,25
Class 6,27,27
Parents,60,34
"""), ("Class 5", 25), ("Class 6", 27), ("Parents", 34))

roster("groups", "same-group-twice", "The choir stands there twice, first ten, then eight more who said yes later.", csv("""
Group,People,Note
Choir,10,
Boat club,14,
Choir,8,more who said yes later
"""), ("Choir", 18), ("Boat club", 14))

roster("groups", "film-words-in-names", "Groups whose names speak of film and wheels; nothing is said about being filmed or wheelchairs.", csv("""
Group,People
Film club,14
Cartwheel team,12
Photo circle,9
Wheelwrights,11
"""), ("Film club", 14), ("Cartwheel team", 12), ("Photo circle", 9), ("Wheelwrights", 11))

# ---------------------------------------------------------------- a person a line
roster("person", "name-and-group", "Eight people in three groups.", csv("""
Name,Group
Tilda Marsh,Harbour choir
Osk Wherry,Harbour choir
Runa Skiff,Boat club
Mo Keel,Boat club
Bryn Tarn,Boat club
Ines Quill,Rope jumpers
Pelle Sund,Rope jumpers
Kaja Fenn,Harbour choir
"""), ("Harbour choir", 3), ("Boat club", 3), ("Rope jumpers", 2))

roster("person", "first-last-class", "Seven pupils of two classes, last and first names in two columns.", csv("""
No.;Last name;First name;Class
1;Marsh;Tilda;5a
2;Wherry;Osk;5a
3;Skiff;Runa;5b
4;Keel;Mo;5b
5;Tarn;Bryn;5a
6;Quill;Ines;5b
7;Sund;Pelle;5b
"""), ("5a", 3), ("5b", 4))

roster("person", "names-alone", "Nine names without groups.", csv("""
Who comes
Tilda Marsh
Osk Wherry
Runa Skiff
Mo Keel
Bryn Tarn
Ines Quill
Pelle Sund
Kaja Fenn
Fia Reed
"""), ("", 9))

roster("person", "group-once", "The group's name stands only beside its first person.", csv("""
Group,Name
Boat club,Runa Skiff
,Mo Keel
,Bryn Tarn
Choir,Tilda Marsh
,Osk Wherry
"""), ("Boat club", 3), ("Choir", 2))

roster("person", "merged-groups", "Group names in merged cells; seven people.", book(sheet("List", """
Group|Name|Age
Harbour choir|Tilda Marsh|16
|Osk Wherry|17
|Kaja Fenn|16
Rope jumpers|Ines Quill|12
|Pelle Sund|13
|Fia Reed|12
|Ebba Lark|13
""", merge=["A2:A4", "A5:A8"])), ("Harbour choir", 3), ("Rope jumpers", 4))

roster("person", "headings-as-groups", "Names under headings that are the groups.", csv("""
HARBOUR CHOIR
Tilda Marsh
Osk Wherry
Kaja Fenn

BOAT CLUB
Runa Skiff
Mo Keel

ROPE JUMPERS
Ines Quill
Pelle Sund
Fia Reed
"""), ("Harbour choir", 3), ("Boat club", 2), ("Rope jumpers", 3))

roster("person", "headings-with-counts", "Names under headings that give the number of people, which agrees.", csv("""
Harbour choir (3),
1,Tilda Marsh
2,Osk Wherry
3,Kaja Fenn
Boat club (2),
1,Runa Skiff
2,Mo Keel
"""), ("Harbour choir", 3), ("Boat club", 2))

roster("person", "a-group-a-column", "A group a column with the names below.", csv("""
Choir,Boat club,Rope jumpers
Tilda Marsh,Runa Skiff,Ines Quill
Osk Wherry,Mo Keel,Pelle Sund
Kaja Fenn,,Fia Reed
,,Ebba Lark
"""), ("Choir", 3), ("Boat club", 2), ("Rope jumpers", 4))

roster("person", "a-group-a-sheet", "A group a sheet, names in each.", book(sheet("Choir", """
Name|Voice
Tilda Marsh|alto
Osk Wherry|bass
Kaja Fenn|alto
"""), sheet("Boat club", """
Name|Boat
Runa Skiff|Tern
Mo Keel|Heron
""")), ("Choir", 3), ("Boat club", 2))

roster("person", "leaders-marked", "People with a mark for who leads a row; leaders belong to their groups.", csv("""
Name,Group,Role
Tilda Marsh,Choir,row leader
Osk Wherry,Choir,
Kaja Fenn,Choir,
Runa Skiff,Boat club,row leader
Mo Keel,Boat club,
"""), ("Choir", 3), ("Boat club", 2))

roster("person", "coming-yes-no", "Those who said yes come; two said no.", csv("""
Name,Group,Coming?
Tilda Marsh,Choir,yes
Osk Wherry,Choir,no
Kaja Fenn,Choir,yes
Runa Skiff,Boat club,yes
Mo Keel,Boat club,no
Bryn Tarn,Boat club,yes
"""), ("Choir", 2), ("Boat club", 2))

roster("person", "late-comers", "Two come later, and they come all the same.", csv("""
Name,Group,Remark
Tilda Marsh,Choir,
Osk Wherry,Choir,comes late (14:40)
Kaja Fenn,Choir,
Runa Skiff,Boat club,late - bus from Saltmarsh
Mo Keel,Boat club,brings tape
"""), ("Choir", 3), ("Boat club", 2))

roster("person", "cancelled-in-remarks", "Kaja cancelled, as the remark says; four come.", csv("""
Name,Group,Remark
Tilda Marsh,Choir,
Osk Wherry,Choir,
Kaja Fenn,Choir,CANCELLED - broken leg
Runa Skiff,Boat club,
Mo Keel,Boat club,
"""), ("Choir", 2), ("Boat club", 2))

roster("person", "struck-out", "Two people are struck through: they do not come; three do.", book(sheet("Sheet1", """
Name|Group
Tilda Marsh|Choir
~~Osk Wherry|~~Choir
Kaja Fenn|Choir
Runa Skiff|Boat club
~~Mo Keel|~~Boat club
""")), ("Choir", 2), ("Boat club", 1))

roster("person", "double-said-so", "Runa stands there twice, and the remark says so; four people.", csv("""
Name,Group,Remark
Tilda Marsh,Choir,
Runa Skiff,Boat club,
Mo Keel,Boat club,
Runa Skiff,Boat club,double! already above
Osk Wherry,Choir,
"""), ("Choir", 2), ("Boat club", 2))

roster_ask("person", "double-unsaid", "Tilda Marsh of the choir stands there twice.", "Are these two people of one name, or was one written twice?", csv("""
Name,Group
Tilda Marsh,Choir
Osk Wherry,Choir
Kaja Fenn,Choir
Tilda Marsh,Choir
"""))

roster("person", "same-name-two-classes", "Two people called Mo Keel, one in 5a and one in 7b.", csv("""
Name,Class
Mo Keel,5a
Runa Skiff,5a
Mo Keel,7b
Bryn Tarn,7b
"""), ("5a", 2), ("7b", 2))

roster("person", "blank-lines-and-numbers", "Blank lines and page headings between; six people are numbered 1 to 6.", csv("""
No,Name,Group
1,Tilda Marsh,Choir
2,Osk Wherry,Choir
,,
3,Kaja Fenn,Choir
,,
No,Name,Group
4,Runa Skiff,Boat club
5,Mo Keel,Boat club
6,Bryn Tarn,Boat club
,,
People:,6,
"""), ("Choir", 3), ("Boat club", 3))

roster("person", "families-with-numbers", "Families with how many come from each, of two streets.", csv("""
Family,Street,Persons
Marsh,Quay street,4
Wherry,Quay street,2
Skiff,Ropewalk,5
Keel,Ropewalk,3
Sum,,14
"""), ("Quay street", 6), ("Ropewalk", 8), alts=[R(("Marsh", 4), ("Wherry", 2), ("Skiff", 5), ("Keel", 3))])

roster("person", "plus-two", "Names with how many they bring.", csv("""
Name,Group,Brings
Tilda Marsh,Choir,+2
Osk Wherry,Choir,
Kaja Fenn,Choir,+1
Runa Skiff,Boat club,+1
"""), ("Choir", 6), ("Boat club", 2))

roster("dates", "class-became-april", "The class 3-4 became 03-Apr and 5-6 became 05-Jun.", csv("""
Name,Class
Tilda Marsh,03-Apr
Osk Wherry,03-Apr
Runa Skiff,05-Jun
Mo Keel,05-Jun
Bryn Tarn,05-Jun
"""), ("3-4", 2), ("5-6", 3))

roster("dates", "classes-dates-book", "Mixed classes whose names became dates in the workbook: 1-2, 3-4, and 7 alone.", book(sheet("Sheet1", """
Class|Pupils
@2026-02-01{d-mmm}|22
@2026-04-03{d-mmm}|24
7|26
""")), ("1-2", 22), ("3-4", 24), ("7", 26))

roster("dates", "age-groups-dates", "Age groups with counts, of which two became dates: 8-10 and 11-12.", csv("""
Age,Children
06-Jul,12
08-Oct,18
11-Dec,21
13+,9
"""), ("6-7", 12), ("8-10", 18), ("11-12", 21), ("13+", 9))

roster("dates", "us-classes", "Mixed classes that became dates the American way: 4-Mar was 3-4, 6-May was 5-6.", csv("""
Class,Pupils,Teacher
4-Mar,21,Ms. Fenn
6-May,23,Mr. Tarn
8,19,Ms. Lark
"""), ("3-4", 21), ("5-6", 23), ("8", 19))

roster("dates", "birthdays", "A column of birthdays, which are dates and no groups.", csv("""
Name,Born,Group
Tilda Marsh,03-Apr-2010,Choir
Osk Wherry,12-Jan-2009,Choir
Runa Skiff,07-Sep-2010,Boat club
"""), ("Choir", 2), ("Boat club", 1))

roster("dates", "signed-up-on", "The day on which each group signed up, and how many come.", book(sheet("Sheet1", """
Group|Signed up|People
Harbour choir|@2026-02-03{dd/mm/yyyy}|30
Boat club|@2026-02-11{dd/mm/yyyy}|18
""")), ("Harbour choir", 30), ("Boat club", 18))

roster("person", "counts-after-names", "Names with a count after every group; the counts are no people.", csv("""
Choir,
,Tilda Marsh
,Osk Wherry
,Kaja Fenn
Choir total,3
Boat club,
,Runa Skiff
,Mo Keel
Boat club total,2
Everybody,5
"""), ("Choir", 3), ("Boat club", 2))

roster("person", "title-names-the-group", "The title names the one group of six; everybody below is of it.", csv("""
Boat club Gullhaven - who comes on 14 March
Name,Brings
Runa Skiff,cushion
Mo Keel,
Bryn Tarn,
Ines Quill,drum
Pelle Sund,
Fia Reed,
"""), ("Boat club Gullhaven", 6), alts=[R(("Boat club", 6)), R(("", 6))])

roster("person", "leaders-without-a-seat", "Two leaders stand below and take no seat, as the remark says; five sit.", csv("""
Name,Group,Remark
Tilda Marsh,Choir,
Osk Wherry,Choir,
Kaja Fenn,Choir,"leads, stands below, no seat"
Runa Skiff,Boat club,
Mo Keel,Boat club,
Bryn Tarn,Boat club,
Ines Quill,Boat club,"leads, stands below, no seat"
"""), ("Choir", 2), ("Boat club", 3), alts=[R(("Choir", 3), ("Boat club", 4))])

roster("person", "parent-and-child", "A child and a parent in every line, both come: eight people of two classes.", csv("""
Child (comes),Parent (comes too),Class
Tilda Marsh,Ada Marsh,2a
Osk Wherry,Bo Wherry,2a
Runa Skiff,Lin Skiff,2b
Mo Keel,Gro Keel,2b
"""), ("2a", 4), ("2b", 4))

roster("person", "two-names-in-a-cell", "Names in one cell a group, separated by commas.", csv("""
Group,Who
Choir,"Tilda Marsh, Osk Wherry, Kaja Fenn"
Boat club,"Runa Skiff, Mo Keel"
"""), ("Choir", 3), ("Boat club", 2))

roster("person", "waiting-list", "Five come; below the line are two who only wait for a place.", csv("""
Name,Group
Tilda Marsh,Choir
Osk Wherry,Choir
Kaja Fenn,Choir
Runa Skiff,Boat club
Mo Keel,Boat club
--- waiting list (only if there is room) ---,
Bryn Tarn,Boat club
Ines Quill,Choir
"""), ("Choir", 3), ("Boat club", 2))

roster("person", "seat-wishes", "People with a wish where to sit, which is no group.", csv("""
Name,Class,Wish
Tilda Marsh,5a,next to Kaja
Osk Wherry,5a,row 2
Kaja Fenn,5a,next to Tilda
Runa Skiff,5b,not at the top
"""), ("5a", 3), ("5b", 1))

roster("person", "spelled-differently", "One group written in three ways: Boat club, boat club, BOAT CLUB.", csv("""
Name,Group
Runa Skiff,Boat club
Mo Keel,boat club
Bryn Tarn,BOAT CLUB
Tilda Marsh,Choir
Osk Wherry,choir 
"""), ("Boat club", 3), ("Choir", 2))

roster("person", "no-group-for-some", "Two people without a group among six.", csv("""
Name,Group
Tilda Marsh,Choir
Osk Wherry,
Kaja Fenn,Choir
Runa Skiff,Boat club
Mo Keel,
Bryn Tarn,Boat club
""" ), ("Choir", 2), ("", 2), ("Boat club", 2),
       alts=[R(("Choir", 3), ("Boat club", 3))])

roster_ask("person", "maybe-comes", "People who come, who do not, and two who may.", "Kaja and Mo are not sure to come: shall they be counted?", csv("""
Name,Group,Comes
Tilda Marsh,Choir,yes
Osk Wherry,Choir,yes
Kaja Fenn,Choir,maybe
Runa Skiff,Boat club,yes
Mo Keel,Boat club,?
"""))
