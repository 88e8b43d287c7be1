import type { ReckonedSeasons } from '../../../geo/yield/seasons/reckonSeasons.ts'
import { table } from '../table.ts'

/** Season against season, where cold ground stays cold, and what the season is to give. */
export function seasonsTable({ seasons, beds, zones, outlook }: Omit<ReckonedSeasons, 'together'>): string {
  const bedLines = beds
    .filter((bed) => bed.seasons.some(({ kg }) => kg > 0))
    .map((bed) => [bed.id, ...bed.seasons.flatMap(({ kg, index, rank, change }) => [kg, index, rank, change])])
  const heads = seasons.flatMap((season) => [`kg ${season}`, 'index', 'rank', 'change'])
  const cold = zones.map(
    ({ toldSeasons, coldSeasons }, k) =>
      `Zone ${k + 1}: cold in ${coldSeasons.length} of the ${toldSeasons.length} seasons that tell of it${coldSeasons.length > 0 ? ` (${coldSeasons.join(', ')})` : ''}.`,
  )
  const crops = outlook.crops.map((c) => [
    c.crop,
    c.pickedKg,
    c.usualShareByNow === null ? null : `${Math.round(c.usualShareByNow * 100)} %`,
    c.expectedKg,
    c.lowKg,
    c.highKg,
    restsOn(c),
  ])
  const ofNoCrop =
    outlook.ofNoCropKg > 0
      ? ` ${outlook.ofNoCropKg.toFixed(1)} kg of it were told by bed or by spot and belong to no crop that can be told.`
      : ''
  const sum =
    outlook.expectedKg === null
      ? 'nothing is known to expect'
      : `${outlook.expectedKg.toFixed(0)} kg are to be expected in all`
  return [
    `Season against season\n${table(['bed', ...heads], bedLines)}`,
    ...cold,
    `Season ${outlook.season} up to ${outlook.on}: ${outlook.pickedKg.toFixed(1)} kg picked; ${sum}.${ofNoCrop}`,
    table(['crop', 'picked kg', 'usual by now', 'expected kg', 'low', 'high', 'rests on'], crops),
  ].join('\n\n')
}

function restsOn({ rests, seasons, source }: ReckonedSeasons['outlook']['crops'][number]): string {
  if (rests === 'own seasons') return `own seasons ${seasons.join(', ')}`
  if (rests === 'all cleared') return 'picked: all cleared'
  return rests === 'usual yield' ? `usual yield (${source ?? 'no source told'})` : 'nothing'
}
