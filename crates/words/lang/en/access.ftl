### Signing in and out, and what the journal notes about it.
### $person: a name; $line: a line already said; $note: a short text

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
