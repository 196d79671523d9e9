### Honest rounds: signs of a round not walked, the photo asked for, telling without blame, the list for a quiet day.
### $point, $name, $machine: names; $n, $points, $rounds, $days: counts; $took, $given: times already said
### $value: as written; $why, $what: the person's own words; $when: a time already said

signs-title = Rounds to talk about
signs-intro = Signs that a round may not have been walked. Only the steward sees them. A sign is no proof: ask first.
signs-nothing-refused = Nothing was refused for any of them. Each round counts as it stands.
signs-none = No round of the last 30 days shows a sign.
signs-link = { $n ->
    [one] One round to talk about
   *[other] { $n } rounds to talk about
 }
sign-round = { $name }, { $when }
sign-too-quick = { $points } points in { $took }. The book gives them { $given }. Less than a quarter of that is quick.
sign-same-value = { $point }: { $value }, { $days } days running.
sign-always-the-same = The last { $rounds } rounds have the same answer at every one of { $points } points, numbers too.
sign-no-photo = No photo of “{ $point }”, because: { $why }
sign-photo-not-yet = “{ $point }”: no photo was taken, and nobody said why.
sign-seconds = { $n ->
    [one] one second
   *[other] { $n } seconds
 }
sign-minutes = { $n ->
    [one] one minute
   *[other] { $n } minutes
 }

show-me = Show me: this round asks for one photo, of { $point }.
show-me-why = One point is picked at random. It helps whoever mends it, and shows how it looks when it is well.
show-me-take = Take the photo
show-me-taken = The photo of { $point } is there. Thank you.
show-me-declined = No photo of “{ $point }”, because: { $why }
show-me-decline = No photo, because

happened-title = It happened while I had it
happened-link = Something broke while I had it: tell it
happened-intro = Nobody is blamed for what is told here. Told early, it is mended cheaply.
happened-never = It is used to mend the machine and to teach, never against whoever tells it.
happened-who-sees = With your name left off, other people here do not see who told it.
happened-who-sees-all = The steward and the deputy can still see it, and so can whoever holds the yard's data. The journal keeps who wrote what.
happened-what = What happened, and what broke
    .hint = What you did, what it did, what you saw or heard.
happened-name = Your name
happened-name-named = Show my name
happened-name-unnamed = Leave my name off the pages
happened-keep = Tell it
fault-told-named = told by whoever it happened to
fault-told-unnamed = told by whoever it happened to, name left off
name-left-off = name left off

quiet-title = For a quiet day
quiet-intro = Small things that can wait, the most pressing first. Print it and take it to the shed.
quiet-none = Nothing waits for a quiet day.
quiet-link = List for a quiet day
quiet-care = Run with care until it is mended.
quiet-note = It can wait.
quiet-since = Open since { $when }.
quiet-times = { $n ->
    [one] First time.
   *[other] Came back: time { $n }.
 }
quiet-done = done
deed-see-signs = see signs of rounds not walked
