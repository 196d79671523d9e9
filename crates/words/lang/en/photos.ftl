### Photos: sending one, why one is not kept, and where they are shown.
### $machine: a machine's name; $n: a count; $what, $text, $line: a line already said, or somebody's words; $name: a name; $when: a time already said

photo-empty = The file is empty.
    .next = Choose the photo again.
photo-too-large = The photo is larger than 12 MB.
    .next = Send it smaller, or take it with fewer pixels.
photo-not-a-picture = This file is no picture.
    .next = Choose a photo: a JPEG, PNG or WebP file.
photo-other-kind = Pictures of this kind are not read here.
    .next = Send it as JPEG. Most cameras can be set to it.
photo-moving = This is a moving picture.
    .next = Send one still picture as JPEG.
photo-too-many-pixels = The picture has too many pixels.
    .next = Send one of at most 60 megapixels as JPEG, at most 12,000 pixels a side.
photo-cut-off = The picture is cut off: its end is missing.
    .next = Send it again.
photo-damaged = The picture does not open.
    .next = Take it again, or send it as JPEG.
photo-differs = Another picture came under this number already, and stays.
    .next = Take the photo again.

journal-photos-awaited = { $n ->
    [one] One photo is named in the journal and has not arrived.
   *[other] { $n } photos are named in the journal and have not arrived.
 } Phones send them later. Nothing is damaged.

photo-title = Add a photo
photo-intro = Write a caption that says what to look for.
photo-picture = Picture
    .hint = JPEG, PNG or WebP, at most 12 MB. Its place and camera are taken out.
photo-of = What it shows
photo-of-machine = The machine as a whole
photo-of-findings = Open findings
photo-of-points = Points
photo-caption = Caption
photo-keep = Keep the photo
ask-photo-picture = No picture was chosen.
    .next = Choose one, or take one now.
ask-photo-of = It is not there any more, what the photo shows.
    .next = Choose again what it shows, and choose the picture again.
link-photo = Add a photo
photo-add-here = Add a photo of this
photos-title = Photos
photo-shows = Photo: { $what }
photo-not-here = { $what }. The picture is not here yet: the phone that took it sends it later.
photo-sign-in = { $what }. Sign in to see it.
photo-taken = { $when }, { $name }
entry-photo-at = Photo of { $what }
    .text = Photo of { $what }: { $text }

paper-finding-title = { $machine } · a finding
paper-finding-done = What was done
paper-finding-nothing-done = Nothing yet.
paper-finding-no-photo = No photo was taken.
paper-finding-photos-withheld = There are photos. Sign in to print them.
paper-finding-more-photos = { $n ->
    [one] One more photo is on the finding's page.
   *[other] { $n } more photos are on the finding's page.
 }
paper-finding-photos-awaited = { $n ->
    [one] One photo has not arrived yet.
   *[other] { $n } photos have not arrived yet.
 }
link-finding-sheet = Finding sheet to print
