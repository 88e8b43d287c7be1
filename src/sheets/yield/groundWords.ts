import type { OfCrops } from '../../desk/door.ts'
import { showCount, showShare } from '../show/figures.ts'
import { crops } from '../state/crops.ts'
import type { Yielded } from '../state/door.ts'

/** Seasons in a row as 2024–2026, others one by one. */
export function seasonsWords(seasons: readonly number[]): string {
  const [first, last] = [seasons[0]!, seasons.at(-1)!]
  if (seasons.length > 1 && last - first === seasons.length - 1) return `${first}–${last}`
  return seasons.join(', ')
}

/** The crop or family by its name; nothing where all are meant. */
export function ofWords(of: OfCrops | null): string | null {
  if (of === null) return null
  return 'family' in of ? of.family : (crops.value?.find(({ id }) => id === of.crop)?.name ?? of.crop)
}

/** Whose yield, and when, as a heading tells it: 2026; or 2024–2026, Tomato. */
export const groundWords = (seasons: readonly number[], of: OfCrops | null): string =>
  [seasonsWords(seasons), ofWords(of)].filter((part) => part !== null).join(', ')

/** What a cell rests on: how many picks, and how near to it their mass was told. */
export function restsWords({ picks, kg, bedKg, spotKg }: Yielded['cells'][number]['properties']['rests']): string {
  if (picks === 0 || kg === 0) return 'no pick was told of this ground'
  const parts = [
    { words: 'told at a spot', share: spotKg / kg },
    { words: 'told of a planting’s stretch', share: (kg - spotKg - bedKg) / kg },
    { words: 'spread over the whole bed', share: bedKg / kg },
  ].filter(({ share }) => share > 0.005)
  const told =
    parts.length === 1 ? parts[0]!.words : parts.map((part) => `${showShare(part.share)} ${part.words}`).join(', ')
  return `${showCount(picks)} ${picks === 1 ? 'pick' : 'picks'}, ${told}`
}
