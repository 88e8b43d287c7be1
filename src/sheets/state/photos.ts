import { signal } from '@preact/signals'
import type { Photo } from '../../../geo/model/photos.ts'
import type { Changed, DeskFault, Edit, PhotoFile } from '../../desk/door.ts'
import type { MapPhoto } from '../../map/farmMap.ts'
import { ask } from './door.ts'
import { forgetLargePhotos, isTiff, tiledPicture } from './largePhotos.ts'
import { whenFarmLeft } from './leaving.ts'
import { on } from './where.ts'

/** How a photo is shown. */
export interface PhotoLook {
  readonly opacity: number
  /** Shown on the Ground sheet. */
  readonly visible: boolean
  /** Shown under the other sheets, too, where the plan is easier to read on paper. */
  readonly everywhere: boolean
}

/** A photo on the map: its record, its picture once decoded, and how it is shown. */
export interface ShownPhoto extends PhotoLook {
  readonly photo: Photo
  readonly picture: Pick<MapPhoto, 'id' | 'corners' | 'picture'> | null
  readonly fault: DeskFault | null
}

/** Longest side asked for: most devices draw textures of 4096 pixels. */
const MAX_SIDE_PX = 4096

export const photos = signal<readonly ShownPhoto[]>([])
/** Files whose place on the earth is not told by themselves: the person says the grid. */
export const gridWanted = signal<{ readonly files: readonly PhotoFile[]; readonly why: string } | null>(null)
export const photoFault = signal<DeskFault | null>(null)
export const photoDoing = signal<{ readonly what: string; readonly stop: () => void } | null>(null)

/** Looks that the person has changed and that are not kept yet: no list that was asked for before takes them back. */
const inHand = new Map<string, Partial<PhotoLook>>()

whenFarmLeft(() => {
  inHand.clear()
  photos.value = []
  gridWanted.value = null
  photoFault.value = null
  forgetLargePhotos()
})

/** Photos as they lie on one another, the lowest first; those that were never moved lie on top, newest uppermost. */
const inPile = (listed: readonly Photo[]): Photo[] =>
  listed
    .map((photo, i) => ({ photo, i }))
    .sort((a, b) => (a.photo.pile ?? Infinity) - (b.photo.pile ?? Infinity) || a.i - b.i)
    .map(({ photo }) => photo)

/** Lists the farm's photos and has each decoded. */
export async function askPhotos(): Promise<void> {
  const reply = await ask('listPhotos', {})
  if (!reply.ok) {
    photoFault.value = reply.fault
    return
  }
  const known = new Map(photos.value.map((shown) => [shown.photo.id, shown]))
  photos.value = inPile(reply.value).map((photo) => {
    const before = known.get(photo.id)
    const isSame = before !== undefined && JSON.stringify(before.photo.placed_by) === JSON.stringify(photo.placed_by)
    return {
      photo,
      picture: isSame ? before.picture : null,
      fault: isSame ? before.fault : null,
      opacity: photo.opacity ?? 1,
      visible: photo.shown ?? true,
      everywhere: photo.on_every_sheet ?? false,
      ...inHand.get(photo.id),
    }
  })
  for (const shown of photos.value) if (!shown.picture && !shown.fault) await askPicture(shown.photo)
}

/** Has a photo's picture made anew, where what it is made from has changed. */
export async function refreshPhoto(id: string): Promise<void> {
  const shown = photos.value.find(({ photo }) => photo.id === id)
  if (shown) await askPicture(shown.photo)
}

async function askPicture(photo: Photo): Promise<void> {
  const { id } = photo
  if (isTiff(photo) && (await askTiled(photo))) return
  const reply = await ask('photoPicture', { id, maxSidePx: MAX_SIDE_PX })
  // Known to lack smaller copies, or drawn from them, before its picture is there for anyone who waits for that.
  if (reply.ok && reply.value.isShrunk && !isTiff(photo) && (await askTiled(photo))) return
  changePhoto(id, reply.ok ? { picture: reply.value } : { fault: reply.fault })
}

/** Has the photo drawn tile by tile where it can be. */
async function askTiled(photo: Photo): Promise<boolean> {
  const { id } = photo
  const tiled = await tiledPicture(photo)
  if (tiled) changePhoto(id, 'kind' in tiled ? { fault: tiled } : { picture: { id, ...tiled }, fault: null })
  return tiled !== null
}

/** Changes a photo's record. */
export function photoEdit(id: string, to: Partial<Photo>): Edit {
  return { do: 'change', kind: 'photos', id, to }
}

/** The edits that put a photo one place higher (1) or lower (−1) in the pile; none where it is at that end. */
export function pileEdits(id: string, by: 1 | -1): readonly Edit[] {
  const ids = photos.value.map(({ photo }) => photo.id)
  const at = ids.indexOf(id)
  const other = ids[at + by]
  if (other === undefined) return []
  ids[at] = other
  ids[at + by] = id
  return ids.map((one, pile) => photoEdit(one, { pile }))
}

/** Shows a photo otherwise at once, before that is kept; holds until it is let go of. */
export function showOtherwise(id: string, to: Partial<PhotoLook>): void {
  inHand.set(id, { ...inHand.get(id), ...to })
  changePhoto(id, to)
}

/** What was shown otherwise is kept, or could not be; what the person has changed again since stays in hand. */
export function letGoOf(id: string, look: Partial<PhotoLook>): void {
  const held = Object.entries(inHand.get(id) ?? {})
  inHand.set(id, Object.fromEntries(held.filter(([which, is]) => look[which as keyof PhotoLook] !== is)))
}

function changePhoto(id: string, to: Partial<Omit<ShownPhoto, 'photo'>>): void {
  photos.value = photos.value.map((shown) => (shown.photo.id === id ? { ...shown, ...to } : shown))
}

/**
 * Opens a GeoTIFF, or a picture and its world file. Says what changed and the photo's id; or that the picture does not
 * tell where it lies; or null where it could not be opened.
 */
export async function addPhoto(
  files: readonly PhotoFile[],
  crs: string | null,
): Promise<{ readonly id: string; readonly changed: Changed } | 'unplaced' | null> {
  photoFault.value = null
  gridWanted.value = null
  const stop = new AbortController()
  photoDoing.value = { what: `Opening ${files.map(({ name }) => name).join(', ')}`, stop: () => stop.abort() }
  const reply = await ask('addPhoto', { files, on: null, crs, place: null, at: on.value }, { signal: stop.signal })
  photoDoing.value = null
  if (!reply.ok) {
    if (reply.fault.field === 'crs' && crs === null) gridWanted.value = { files, why: reply.fault.detail }
    else if (reply.fault.field === 'georeference' && crs === null) return 'unplaced'
    else if (reply.fault.kind !== 'stopped') photoFault.value = reply.fault
    return null
  }
  await askPhotos()
  return { id: reply.value.photo.id, changed: reply.value.changed }
}
