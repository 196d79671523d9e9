### The pocket: what a phone keeps and writes out of range of the yard's computer.
### $n: how many; $age: an age already said; $why: a reason already said; $name: a person's name; $what: what was found, already said
### $done, $all: points answered and in all

pocket-title = In your pocket
pocket-needs-script = This page needs a browser that runs scripts. Everything can also be done on the ordinary pages:
pocket-shelf = These machines go with you. What you write out of range stays on this phone until it reaches the yard's computer.
pocket-held = on this phone
pocket-not-held = open it once in range
pocket-all-about-it = All about this machine
pocket-photo = Keep a photo
pocket-photo-shows = What it shows
pocket-verdict-age = As the yard's computer gave it, { $age }.
pocket-verdict-gone = No verdict any more: the last one has run out.
    .next = Get in range, then walk it round. Until then nobody knows, and it does not start.
pocket-handed-over = No verdict any more: it was handed over on this phone.
    .next = Get in range, then walk it round. It does not start before.
pocket-left-running = The engine was left running
pocket-left-unlocked = Left without its lock
pocket-signed-out = You are signed out on this phone. The yard's computer hears of it once it is in reach.
pocket-worse = Stand down. Found on this phone: { $what }
    .next = It does not start, whatever is shown below. Tell the steward.
pocket-progress = { $done } of { $all } points answered
pocket-stop-left = { $done } of { $all }
pocket-stop-done = done
pocket-close-unfinished = Finish with points unanswered: { $n }
pocket-close-means = Out of range nobody gives a verdict. The yard's computer gives it once the round has reached it.
pocket-round-closed = The round is finished and kept on this phone. The verdict comes from the yard's computer.
pocket-answered-before = Answered in this round already.
pocket-run-learner = A learner starts with the steward's or the deputy's word, in sight. That needs their PIN, in range.
pocket-no-start = No start: nobody knows that it is fit now.
    .next = In range the yard's computer can say why, and what to do. Until then leave it.

phone-title = On this phone
phone-look = Show them
phone-kept-here = Kept. On this phone only until it reaches the yard's computer.
phone-delivered = The yard's computer has it.
phone-reached = The yard's computer is in reach.
phone-not-reached = Out of reach of the yard's computer. Everything you keep stays on this phone.
phone-nothing-waits = Nothing waits on this phone.
phone-unsent = { $n ->
    [one] One entry is on this phone only
   *[other] { $n } entries are on this phone only
 }
phone-old = Some are more than a day old. Bring this phone in reach, or copy them out.
phone-worse = What waits here stands a machine down, and the yard does not know it yet: { $what }.
phone-waits-since = on this phone only, { $age }
phone-aside = not taken: { $why }
phone-not-yours = written by somebody else on this phone: they sign in to deliver it
phone-photo-waits = a photo, on this phone only
phone-photo-aside = a photo, not taken: { $why }
phone-deliver-now = Deliver now
phone-sign-in = Sign in to deliver
phone-take-in = Take in what another phone could not send
phone-copy-out = Copy out what waits
phone-plain-http = At this address a browser cannot open pages out of reach. Keep this page open while you are away.
phone-plain-http-how = How the yard gets an address that can
phone-cannot-keep = This browser keeps nothing. What you write here is lost unless you are in reach.
phone-holder = { $name } writes on this phone.
phone-nobody = Nobody is signed in on this phone.
    .next = Sign in while the yard's computer is in reach. Then this page can be written on, in reach or out of it.
phone-add-photo = Add a photo
phone-photo-kept = photo kept
phone-photo-not-read = This picture could not be shrunk here. It goes as it is.
phone-remove-photo = Leave it out
phone-age-now = just now
phone-age-minutes = { $n } min ago
phone-age-hours = { $n } h ago
phone-age-days = { $n } days ago

ask-quantity = This is not a number with a unit.
    .next = Write it like 1 3/4 in, 44.5 mm or 812.3 h.
ask-photo = There is no photo yet.
    .next = Take one, or choose one.

kind-of-entry-walk-round = Walk-round
kind-of-entry-handover = Handover
kind-of-entry-run = Run
kind-of-entry-fault = Damage
kind-of-entry-meter-reading = Hour meter
kind-of-entry-note = Note
kind-of-entry-photo = Photo
kind-of-entry-stand-down = Stand down
