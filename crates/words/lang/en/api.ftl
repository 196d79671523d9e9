### The API: what it does, answers and refuses.
### $why, $name: as found; $line, $column: a place in what was sent; $most: a limit; $codes: codes as a list; $deed: a deed in words

api-title = The yard's API
api-about = Everything a page of the yard can do, for programs. Sign in on a page, or make a token there.
api-by-token = A token made by a person for a program. It may read, deliver, or both, and never more than that person.
api-by-sign-in = The sign-in of a person's browser.
api-sent-most = At most { $most } MiB.
api-refuses = Refused: { $codes }.

api-do-describe = This description
api-do-me = Who am I?
api-do-deliver = Deliver entries that a device kept
api-do-write-entry = Write one entry
api-do-list-entries = Read the journal
api-do-read-entry = Read one entry
api-do-yard = The yard with its machines
api-do-machine = One machine with its verdict
api-do-round = The round due now
api-do-people = Who is in the yard

api-part-tag = The yard's tag, as in the address of its pages.
api-part-machine = The machine's id, as in its book.
api-part-entry = The entry's id.
api-part-after = Entries after this place. The first entry has place 1.
api-part-most = Most entries in one answer.
api-part-purpose = Why the round is walked.

api-says-description = An OpenAPI document.
api-says-me = The person who asks.
api-says-delivered = What became of each entry. What is new is on the disk.
api-says-entry-new = It is on the disk.
api-says-entry-known = It was there already, the same.
api-says-entry-conflict = Another entry has this id. Both are kept, and people are asked.
api-says-entries = Entries in order of acceptance.
api-says-entry = The entry.
api-says-yard = The yard.
api-says-machine = The machine, with a verdict for the person who asks.
api-says-round = Legs, stops and points in walking order.
api-says-people = Everybody in the yard.

api-why-sign-in = Sign in first, or send a token.
api-why-token = This token does not hold here. Make a new one on the tokens page.
api-why-may-not = Your role may not do this.
api-why-scope = This token was not made for this.
api-why-cross-site = This came from a page of another site.
api-why-not-found = There is nothing at this address.
api-why-method = This address is not asked that way.
api-why-media-type = Send JSON, and say so: content-type application/json.
api-why-too-large = This is more than { $most } MiB. Send it in parts.
api-why-cut-off = Not all of it arrived. Send it again.
api-why-not-json = This is not JSON: line { $line }, column { $column }: { $why }
api-why-shape = This JSON is not what is wanted here: line { $line }, column { $column }: { $why }
api-why-parameter = The value of { $name } does not fit.
api-why-too-many = Send at most { $most } entries at once.
api-why-not-an-entry = { $why }
api-why-entry = { $why }
api-why-not-yours = Somebody else wrote this entry. They can deliver it themselves.
api-why-slow-down = Too many wrong tries. Wait ten minutes.
api-why-disk-full = The disk of the yard's computer is full. Nothing of this was kept.
api-why-ours = This is a mistake of the program. It is in its log.

api-entry-new = It is in the journal.
api-entry-known = It was in the journal already.
api-entry-conflict = Another entry has the same id. Both are kept, and the steward is asked.
api-entry-not-yours = Somebody else wrote this entry. Ask them to sign in here.
api-entry-may-not = Your role may not do this: { $deed }.
api-entry-word-in-sight = That somebody stood in sight is only taken with their PIN, on the run page.
api-entry-program-only = Only the program itself writes such entries.
api-entry-other-machine = It corrects an entry of another machine.
