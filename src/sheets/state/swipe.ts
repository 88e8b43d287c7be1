import { computed, signal } from '@preact/signals'
import type { Swipe } from '../../map/farmMap.ts'
import { photos, type ShownPhoto } from './photos.ts'
import { sheet } from './where.ts'

/** Which photos are looked at either side of the line, as asked; null where they are not compared. */
const asked = signal<{ readonly left: string; readonly right: string } | null>(null)
/** Where the line stands, from 0 at the map's left to 1 at its right. */
export const swipeAt = signal(0.5)

/** A photo that can stand on a side of the line: one whose picture is there and not hidden. */
export const comparable = computed<readonly ShownPhoto[]>(() =>
  photos.value.filter(({ picture, visible }) => picture !== null && visible),
)

/** The two photos compared, while both are there; only on the sheets that show them. */
export const compared = computed<{ readonly left: ShownPhoto; readonly right: ShownPhoto } | null>(() => {
  const ids = asked.value
  if (!ids) return null
  const find = (id: string) => comparable.value.find((shown) => shown.photo.id === id)
  const [left, right] = [find(ids.left), find(ids.right)]
  const isShown = sheet.value === 'ground' || (left?.everywhere === true && right?.everywhere === true)
  return left && right && isShown ? { left, right } : null
})

export const swipe = computed<Swipe | null>(() =>
  compared.value
    ? { left: compared.value.left.photo.id, right: compared.value.right.photo.id, at: swipeAt.value }
    : null,
)

/** The days in their order: the older left, the newest right. */
const byDay = (a: ShownPhoto, b: ShownPhoto) => (a.photo.on ?? '').localeCompare(b.photo.on ?? '')

/** Begins with the two newest days. */
export function startComparing(): void {
  const [left, right] = [...comparable.value].sort(byDay).slice(-2)
  if (!left || !right) return
  swipeAt.value = 0.5
  asked.value = { left: left.photo.id, right: right.photo.id }
}

/** Chooses the photo of one side; the one that stood on the other changes places with it. */
export function compareOn(side: 'left' | 'right', id: string): void {
  const now = asked.value
  if (!now) return
  const other = side === 'left' ? 'right' : 'left'
  asked.value = now[other] === id ? { left: now.right, right: now.left } : { ...now, [side]: id }
}

export function stopComparing(): void {
  asked.value = null
}
