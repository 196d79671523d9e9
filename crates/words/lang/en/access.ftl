### Signing in and out, and what the journal notes about it.
### $person, $name: a name; $line: a line already said; $note: a short text; $device, $id: a few letters that stand for one
### $n: a count; $at, $when: times already said; $role: a role already said; $address: an address of this server

access-locked = Signing in as { $person } was stopped after wrong PINs
    .nobody = Signing in on one device was stopped after wrong PINs
access-unlocked = Signing in as { $person } is open again
    .nobody = Signing in on one device is open again
access-link-given = { $person } was given a link to choose a PIN
    .nobody = A link to choose a PIN was given
access-pin-set = { $person } has a new PIN
    .nobody = A new PIN was set
access-name-erased = The name of { $person } was erased
    .nobody = A name was erased
access-token-made = { $person } made a token for another program
    .nobody = A token for another program was made
access-token-ended = A token of { $person } was ended
    .nobody = A token for another program was ended
access-taken-in = Entries of { $person } were taken in from this device
    .nobody = Entries of others were taken in from this device
access-with-note = { $line } ({ $note })

pin-wrong = That PIN is not the right one.
pin-too-many = Too many wrong tries.
pin-wait = { $n ->
    [one] Wait one second, then try again.
   *[other] Wait { $n } seconds, then try again.
 }
pin-wait-until = Try again at { $at }.
pin-locked = Signing in here, or as this person, is locked: there were too many wrong tries today.
    .next = Ask the steward to unlock it at the yard's own computer.
locked-ten-minutes = for ten minutes
locked-until-unlocked = until it is unlocked at the yard's computer
locked-note = { $line }; device { $device }
    .nobody = { $line }; on a device where nobody has signed in
too-often = This is too much at once.
    .next = This device has sent very many forms within a minute. Wait a minute, then go on.

sign-in-device = This device
sign-in-shared = Shared by several. Signs out after 20 minutes of rest
sign-in-own = My own phone. Stays signed in for 12 hours
sign-out-done = I am done: sign out

me-title = What is kept about me
me-intro = All that the yard keeps about you, { $name }. Nobody else sees this page.
me-facts = You
me-name = Name
me-role = Role now
me-pin = PIN
me-pin-kept = yes; only a scrambled form of it is kept
me-pin-none = none
me-written = Entries you wrote
me-named = Entries that name you
me-photos = Photos in entries you wrote
me-misses = Wrong PINs for you in the last day
me-roles = Roles you were given
me-no-role = no role
me-role-line = { $role }, given by { $name }
me-sign-offs = Machines you may run
me-sign-ins = Where you are signed in
me-here = This device
me-device = Device { $device }
me-device-shared = { $device }, shared by several
me-since = since { $when }
me-sign-out-there = Sign out there
me-download = Download all of it (JSON)
me-erase = Erase my name
me-erase-what = Your name and PIN are erased, here and in the yard's files. You are signed out everywhere and cannot sign in again.
me-erase-stays = What you wrote in the journal stays, under { $id } instead of your name. Machines and verdicts rest on it.
me-erase-backups = Backups and papers made before still hold your name. The steward has to replace or destroy them.
me-erase-last = You are the only steward. Make somebody else steward first, then your name can be erased.
me-erase-pin = Your PIN, to confirm
me-erased = The name is erased.

people-no-pin = no PIN yet
people-locked = signing in is locked
people-first-pin-hint = Leave empty to get a one-time link instead. Then they choose their own PIN.
people-pin-link = Give a link to choose a new PIN
people-pin-link-here = A new PIN for somebody who has one is given only at the yard's own computer. Open { $address } there.
people-link = Link for { $name }
people-link-once = It works once, within { $n } hours. Show it to { $name } alone.
people-unlock = Unlock signing in
people-unlock-devices = Unlock devices
people-erase = Erase this name
people-erase-what = The name and the PIN are erased. Entries stay, under { $id }. This cannot be taken back.
people-erase-pin = Your own PIN, to confirm
people-erase-steward = This is the only steward. Make somebody else steward first.

help-people-unlock = Open signing in again after too many wrong PINs: for one person, or for everybody and all devices.
help-people-erase = Erase a person's name and PIN. What they wrote stays, under a bare id.
person-unlocked = Signing in is open again.
person-not-locked = Nothing was locked. Waits of ten minutes are over as well.
last-steward = This is the only steward.
    .next = Make somebody else steward first, then erase this name.
