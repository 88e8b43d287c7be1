import type { LineString } from 'geojson'
import { climbingStretches } from '../measure/held.ts'
import type { Metres } from '../plane/lonLat.ts'
import type { Plane } from '../plane/plane.ts'
import { partOfLine, type Span } from '../plane/within.ts'
import type { Database } from '../store/database.ts'
import { fromEwkb } from '../store/ewkb.ts'
import type { Layer, StretchProps } from './layer.ts'

type Named = Omit<StretchProps, 'n' | 'held' | 'length_m'>

/** The stretches standing on a day; a climbing one in its held and unheld pieces. All, or those of the plantings named. */
export async function stretchLayer(
  db: Database,
  plane: Plane,
  on: string,
  plantings: readonly string[] | null,
): Promise<Layer<'stretches'>> {
  const named = await db.rows<Named & { line: string; length_m: number }>(
    `select s.planting as id, s.crop, c.name as crop_name, v.name as variety_name, c.family, s.set_out, s.climbs,
      case when s.climbs then '' else encode(st_asewkb(s.plan), 'hex') end as line, st_length(s.plan) as length_m
     from stretches s join crops c on c.id = s.crop join varieties v on v.id = s.variety
     where standing(s.set_out, s.cleared, $1::date) ${plantings ? 'and s.planting = any($2)' : ''}`,
    plantings ? [on, plantings] : [on],
  )
  const climbing = await climbingStretches(db, on, plantings && { plantings })
  const byPlanting = new Map(climbing.map((stretch) => [stretch.planting, stretch]))
  const layer: Layer<'stretches'> = { type: 'FeatureCollection', features: [] }
  for (const { line: hex, length_m, ...props } of named) {
    const climber = byPlanting.get(props.id)
    const line = climber?.line ?? ((fromEwkb(hex) as LineString).coordinates as unknown as Metres[])
    const pieces = climber ? piecesOf(climber.lengthM, climber.held) : [{ span: [0, length_m] as const, held: false }]
    pieces.forEach(({ span, held }, n) => {
      const part = partOfLine(line, span)
      if (part.length < 2) return
      const coordinates = part.map((at) => [...plane.toLonLat(at)])
      layer.features.push({
        type: 'Feature',
        geometry: { type: 'LineString', coordinates },
        properties: { ...props, n, held, length_m: span[1] - span[0] },
      })
    })
  }
  return layer
}

function piecesOf(lengthM: number, held: readonly Span[]): { span: Span; held: boolean }[] {
  const pieces: { span: Span; held: boolean }[] = []
  let from = 0
  for (const span of held) {
    if (span[0] > from) pieces.push({ span: [from, span[0]], held: false })
    pieces.push({ span, held: true })
    from = span[1]
  }
  if (from < lengthM) pieces.push({ span: [from, lengthM], held: false })
  return pieces
}
