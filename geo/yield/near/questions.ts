import type { Metres } from '../../plane/lonLat.ts'
import type { Stretch } from '../stretches.ts'
import type { LowYieldZone } from '../zones.ts'
import type { Factor } from './factor.ts'
import { IN_ZONE_M, plotsInside, zoneFactor } from './zoneNear.ts'

/**
 * Something worth a look in the field: where, what, and why it is asked. Yes means that what `kind` names is there, and
 * makes it an observation.
 */
export interface FieldQuestion {
  readonly id: string
  /** The zone's place in the list, from `zone 1`. */
  readonly zone: string
  readonly question: string
  readonly reason: string
  /** What the observation is called that it becomes. */
  readonly kind: string
  /** The last day of the season on which it was noted in the zone; null where it was not. */
  readonly notedOn: string | null
  /** In the zone, in the farm's plane. */
  readonly at: Metres
}

/** An observation of the season. */
export interface Noted {
  readonly kind: string
  readonly on: string
  readonly at: Metres
}

/** A factor is asked about where its mean over the zone's plots comes to this. */
const NEAR = 0.25
/** A dressing is asked about where this share of the other plots had it and none of the zone's. */
const COMMON = 0.5

type Asked = Pick<FieldQuestion, 'question' | 'reason' | 'kind'>

/**
 * For each zone the questions worth a look, of what lies near its plots; the last two are asked of every zone, and what
 * is noted alike is asked once, with all reasons. Nearness is a reason to look, never a verdict.
 */
export function zoneQuestions(
  zones: readonly LowYieldZone[],
  stretches: readonly Stretch[],
  plots: readonly { readonly bed: number; readonly x: number; readonly y: number }[],
  factors: readonly Factor[],
  noted: readonly Noted[],
): FieldQuestion[] {
  return zones.flatMap((zone, z) => {
    const own = zone.stretches.map((s) => stretches[s]!)
    const inside = plotsInside(zone, stretches, plots)
    const at = middleOf(own)
    const asked = factors.flatMap((factor) => askOf(factor, inside))
    const of = `zone ${z + 1}`
    const there = noted.filter((one) => own.some((s) => Math.hypot(s.x - one.at[0], s.y - one.at[1]) <= IN_ZONE_M))
    return onceEach([...asked, ...ALWAYS]).map((one) => ({
      id: `${of}: ${one.kind}`,
      zone: of,
      at,
      ...one,
      notedOn:
        there
          .flatMap(({ kind, on }) => (kind === one.kind ? [on] : []))
          .sort()
          .at(-1) ?? null,
    }))
  })
}

function onceEach(asked: readonly Asked[]): Asked[] {
  const byKind = new Map<string, Asked>()
  for (const one of asked) {
    const first = byKind.get(one.kind)
    byKind.set(one.kind, first ? { ...first, reason: `${first.reason} ${one.reason}` } : one)
  }
  return [...byKind.values()]
}

/** The middle of the stretch nearest to the middle of them all, so that it lies on the bed. */
function middleOf(own: readonly Stretch[]): Metres {
  const [mx, my] = [own.reduce((s, { x }) => s + x / own.length, 0), own.reduce((s, { y }) => s + y / own.length, 0)]
  const nearest = own.reduce((a, b) => (Math.hypot(a.x - mx, a.y - my) <= Math.hypot(b.x - mx, b.y - my) ? a : b))
  return [nearest.x, nearest.y]
}

const ALWAYS: readonly Asked[] = [
  {
    question:
      'Does water stand here after rain, or is the ground harder than beside it? Push a rod in at three places.',
    reason: 'Asked of every zone: wet and packed ground is on no record until it is seen.',
    kind: 'wet or packed ground',
  },
  {
    question: 'Was anything picked here that was not written down, or was written down to another place?',
    reason: 'Asked of every zone: a pick missed or told to another bed looks the same as poor ground.',
    kind: 'picks not written down',
  },
]

function askOf(factor: Factor, inside: readonly boolean[]): Asked[] {
  const near = zoneFactor(factor, inside)
  if (near === null) return []
  const { kind, name, reachM, here } = near
  const there = near.elsewhere ?? 0
  if (kind === 'dressing') {
    if (here > 0 || there < COMMON) return []
    const question = `Did this ground really get no ${name}? If it did, and that was only not written down, write that down instead.`
    return [{ question, reason: `Most other ground had ${name}; none is told of here.`, kind: `${name} missed` }]
  }
  if (kind === 'support') {
    if (here >= NEAR || there < COMMON) return []
    const question = 'Did the plants here lie on the ground, or was their support down?'
    return [
      { question, reason: `Most other plantings of such crops had ${name}; here hardly any.`, kind: 'support down' },
    ]
  }
  if (here < NEAR) return []
  const within = `within ${reachM} m`
  switch (kind) {
    case 'walnut':
      return [
        {
          question:
            'Are there walnut roots in this ground? Dig a spade deep; look, too, whether sensitive plants wilt or yellow.',
          reason: `The canopy of a tree that gives off juglone is over it or ends ${within}.`,
          kind: 'walnut roots',
        },
      ]
    case 'canopy':
      return [
        {
          question: 'Are there tree roots in this ground? Dig a spade deep; look, too, whether the crown drips on it.',
          reason: `A tree’s canopy is over it or ends ${within}.`,
          kind: 'tree roots',
        },
      ]
    case 'shade':
      return [
        {
          question:
            'Does this ground lie in shadow for hours on a bright day? Look in the morning, at noon and in the afternoon at what throws it.',
          reason: `Trees and supports take about ${Math.round(here * 100)} % of the hours of direct sun.`,
          kind: 'shade',
        },
      ]
    case 'field edge':
    case 'fence':
      return [
        {
          question: 'Are there tracks, droppings or bitten plants here? Look, too, whether the fence is whole.',
          reason: `${kind === 'fence' ? 'A fence' : 'The field’s edge'} lies ${within}.`,
          kind: 'animal damage',
        },
      ]
    case 'family before':
      return [
        {
          question: 'Are roots or stem of a weak plant brown, swollen or eaten? Pull one.',
          reason: 'The same family stood in this bed within the two years before.',
          kind: 'root or stem disease',
        },
      ]
    case 'seen':
      return [
        {
          question: `Is there ${name} here now? Look, too, how far it reaches.`,
          reason: `${name} was seen ${within} in the season.`,
          kind: name!,
        },
      ]
  }
}
