### Getting unsent entries off a phone that cannot reach the yard's computer, and taking them in elsewhere.
### $n, $of: numbers; $parts: numbers in a row; $name, $who, $machine: short names; $when: a time ready to show
### $status: a number of the network's; $address: an address

copy-out-head =
    Entries from a phone that could not reach the yard's computer.
    To take them in, open { $address } on a device that can reach it, and sign in.
    Then paste all of this message there. Change nothing below this line.
copy-out-text-title = As text
copy-out-text-how = Send this text by any means to somebody who is near the yard's computer. Lines may be broken on the way, that does no harm.
copy-out-text-label = The entries as text
copy-out-copy = Copy the text
copy-out-copied = Copied. It stays on this phone as well.
copy-out-copy-by-hand = This browser did not copy it. The text is marked: copy it with the phone's own menu.
copy-out-share = Share the text
copy-out-save = Save it as a file
copy-out-file-name = unsent-entries.txt
copy-out-codes-title = As codes for another phone
copy-out-codes-how = Open the camera of a phone that can reach the yard's computer. Hold it to each code and open the address it finds, in any order.
copy-out-codes-many = These are many codes. The text is quicker.
copy-out-codes-show = Show the codes
copy-out-codes-hide = Put the codes away
copy-out-place = { $n } of { $of }
copy-out-code-title = Square code { $n } of { $of }
copy-out-next = Next
copy-out-back = Back
copy-out-run = Change by itself
copy-out-pause = Hold this one
copy-out-photos = Photos stay on this phone until it reaches the yard's computer itself: { $n }.

take-in-title = Take in from another phone
take-in-intro = For entries that a phone could not send itself. Read its square codes with this phone's camera, or paste its text here.
take-in-sign-in-first = Sign in to deliver them. What was read stays on this phone meanwhile.
take-in-text = The text, whole or in pieces
    .how = Paste all of it. Quote marks and broken lines do no harm.
take-in-read = Read the text
take-in-damaged-code = That code came damaged. Read it again.
take-in-part-kept = Part { $n } of { $of } is kept on this phone.
take-in-done-before = That was delivered before. Nothing is left to do.
take-in-full = This browser has no room to keep it. Deliver what is here first.
take-in-text-nothing = There is nothing in this text that can be taken in. Paste the message from its first bracket to its last.
take-in-text-damaged = Damaged on the way: part { $parts } of { $of }. Copy the text from the message once more.
take-in-text-missing = Not in this text: part { $parts } of { $of }. Paste the rest as well.
take-in-text-read = Read. See below what it holds.
take-in-series-title = From a phone, { $name }
take-in-have = { $n } of { $of } parts are here.
take-in-lacking = Still missing: { $parts }. Read these codes too.
take-in-not-whole = All parts are here, but together they are damaged. Put this away, then read the codes or the text again.
take-in-cannot-unpack = This browser cannot unpack codes. Ask for the text instead, or read the codes with another phone.
take-in-holds = Entries: { $n }
take-in-entry = { $machine }, { $when }, written by …{ $who }
take-in-no-machine = The yard
take-in-as-written = The entry as written
take-in-photos = Photos still on that phone: { $n }. They come when it reaches the yard's computer itself.
take-in-forget = Put this away
take-in-forget-again = Tap again to put it away for good
take-in-deliver = Deliver
take-in-delivering = Delivering …
take-in-delivered-title = Delivered
take-in-all-safe = All of it is safe in the yard's journal.
take-in-some-not = Not all of it was taken. What was not taken stays here, with the reason.
take-in-no-connection = No connection to the yard's computer. Nothing is lost: try again near it.
take-in-not-taken = The yard's computer did not take it (answer { $status }). Nothing is lost: try again later.
take-in-sign-in = Sign in
take-in-sign-in-text = Sign in first, in another tab. The text stays here.
take-in-some-not-text = Not all of it was taken. Keep the text, it still holds what was not taken.
take-in-number = Entry { $n } of { $of }
