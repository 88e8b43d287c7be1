import type { DeskFault, PictureSeen, Reply } from '../../../desk/door.ts'
import { ask } from '../../state/door.ts'
import { isTiff, seeLarge } from '../../state/largePhotos.ts'
import type { ToPlace } from './toPlace.ts'

/** A picture ready to be placed: a copy to look at, its full size, and what its tags say. */
export interface SeenToPlace extends Omit<PictureSeen, 'picture'> {
  readonly image: ImageBitmap
}

/** Longest side of the picture's copy that is looked at. */
const MAX_SIDE_PX = 4096

/** Opens a picture. A TIFF of the farm, or a large one, is read by parts. */
export async function seePicture(of: ToPlace, signal: AbortSignal): Promise<Reply<SeenToPlace>> {
  const byParts = 'large' in of ? of.large : 'id' in of && isTiff(of) ? of : null
  if (byParts) {
    const reply = await seeLarge(byParts, MAX_SIDE_PX, signal)
    const name = 'id' in byParts ? (byParts.name ?? byParts.file) : byParts.map((file) => file.name).join(', ')
    return reply.ok ? { ok: true, value: { ...reply.value, name } } : reply
  }
  const reply = await ask('seePicture', { of: 'id' in of ? of.id : (of as never), maxSidePx: MAX_SIDE_PX }, { signal })
  if (!reply.ok) return reply
  try {
    return { ok: true, value: { ...reply.value, image: await bitmapOf(reply.value) } }
  } catch {
    return { ok: false, fault: DAMAGED }
  }
}

const DAMAGED: DeskFault = {
  kind: 'photo',
  field: 'file',
  record: null,
  detail: 'The picture could not be read. It may be damaged.',
}

function bitmapOf({ picture }: PictureSeen): Promise<ImageBitmap> {
  return picture.type === 'encoded'
    ? createImageBitmap(new Blob([picture.bytes as Uint8Array<ArrayBuffer>], { type: picture.mime }))
    : createImageBitmap(new ImageData(picture.data as Uint8ClampedArray<ArrayBuffer>, picture.width, picture.height))
}
