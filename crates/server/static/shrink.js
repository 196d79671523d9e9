// A photo made small on the phone: turned the right way by the browser, at most 1600 pixels long, a JPEG without what else the camera wrote into it.

const LONGEST = 1600;
const QUALITY = 0.82;

/**
 * Shrinks a picture; none where this browser cannot read it (it then goes as it is, and the yard's computer looks at it).
 * @param {Blob} file @returns {Promise<Blob|null>}
 */
export async function shrink(file) {
  const picture = await decoded(file);
  if (!picture) return null;
  const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const pen = canvas.getContext("2d");
  if (!pen) return null;
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(picture.image, 0, 0, canvas.width, canvas.height);
  picture.close();
  return new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
}

/** @param {Blob} file @returns {Promise<{image: CanvasImageSource, width: number, height: number, close: () => void}|null>} */
async function decoded(file) {
  try {
    const image = await createImageBitmap(file, { imageOrientation: "from-image" });
    return { image, width: image.width, height: image.height, close: () => image.close() };
  } catch {
    return byElement(file);
  }
}

/** The older way, for browsers whose bitmaps do not turn pictures. @param {Blob} file */
async function byElement(file) {
  const address = URL.createObjectURL(file);
  const image = new Image();
  image.src = address;
  try {
    await image.decode();
    return { image, width: image.naturalWidth, height: image.naturalHeight, close: () => URL.revokeObjectURL(address) };
  } catch {
    URL.revokeObjectURL(address);
    return null;
  }
}
