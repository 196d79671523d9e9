### Photos: sending one, why one is not kept, and where they are shown.

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
