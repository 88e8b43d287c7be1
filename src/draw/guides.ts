import type { Metres } from '../../geo/plane/lonLat.ts'
import type { OverlayPicture, Pixel } from './overlay.ts'
import type { Held, SnapName } from './snap.ts'

/** What each kind of hold is called, on the map and beside its switch. */
export const SNAP_WORDS: Readonly<Record<SnapName, string>> = {
  corner: 'corner',
  edge: 'edge',
  square: 'right angle',
  parallel: 'parallel',
  extension: 'extension',
}

/** The guides of what the pointer is held to, as they are drawn; a corner is a name beside it alone. */
export function guidesOf(held: Held | null, toPixel: (at: Metres) => Pixel): NonNullable<OverlayPicture['guides']> {
  if (!held) return []
  const at = toPixel(held.at)
  if (held.snapped === 'corner') return [{ line: [at], by: null, name: SNAP_WORDS.corner }]
  return held.guides.map(({ as, line, by }) => ({
    line: as === 'edge' ? [...line.map(toPixel), at] : line.map(toPixel),
    by: by === null ? null : by.map(toPixel),
    name: SNAP_WORDS[as],
  }))
}
