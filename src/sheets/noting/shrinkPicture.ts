/** Longest side that is kept: enough to tell a leaf spot, and some 300 kB. */
const LONGEST_PX = 1600
const QUALITY = 0.85

/** A picture as it is kept: upright by its own orientation, no larger than 1600 px, JPEG, without what a camera wrote beside it. */
export async function shrinkPicture(file: Blob): Promise<Uint8Array> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' })
  const by = Math.min(1, LONGEST_PX / Math.max(picture.width, picture.height))
  const canvas = new OffscreenCanvas(
    Math.max(1, Math.round(picture.width * by)),
    Math.max(1, Math.round(picture.height * by)),
  )
  const context = canvas.getContext('2d')
  if (!context) throw new Error('this device draws no pictures')
  // What is clear in a PNG is paper, not black.
  context.fillStyle = '#ffffff'
  context.fillRect(0, 0, canvas.width, canvas.height)
  context.imageSmoothingQuality = 'high'
  context.drawImage(picture, 0, 0, canvas.width, canvas.height)
  picture.close()
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY })
  return new Uint8Array(await blob.arrayBuffer())
}
