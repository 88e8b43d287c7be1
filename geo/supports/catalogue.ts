import type { PartKind } from './partKind.ts'
import type { WorkPhase } from './workPhase.ts'

/** A part as the catalogue has it: what a farm's own record of it starts from. */
export interface CataloguePart {
  readonly part: string
  readonly kind: PartKind
  readonly rule: string
  readonly unitCost: number
  readonly lastsSeasons: number
  /** Where its rule, size or life comes from. */
  readonly source: string
  readonly rollM?: number
  readonly diameterMm?: number
  readonly strengthMPa?: number
}

/** A support system in the trade's general terms, to be added to a farm and changed there. */
export interface CatalogueSystem {
  readonly id: string
  readonly name: string
  readonly says: string
  readonly heightM: number
  readonly lines?: number
  readonly tensionN?: number
  /** Meant to be left up. */
  readonly permanent: boolean
  readonly parts: readonly CataloguePart[]
  readonly work: readonly { readonly work: string; readonly minutesPerM: number; readonly when: WorkPhase }[]
}

/** Said wherever a price or a time of the catalogue is shown. */
export const INVENTED_PRICES = 'Prices and minutes are invented: put your own in.'

const WEAVE = 'Penn State Extension; Mississippi State Univ. Extension'
const COMMON = 'common practice'
const MEMORY = 'from memory'
const TRELLIS = 'Univ. of Georgia, Sumner: posts, spacing and wire of a post-and-wire trellis'
const ENDS = 'Iowa State Univ., Domoto 2002: anchors or braces at the ends'
/** Round softwood in bending and steel as sold for fences; assumed. */
const WOOD_MPA = 35
const GAUGE_17_MM = 1.3716
const GAUGE_14_MM = 2.032
const GAUGE_12_5_MM = 2.5146
const LOW_CARBON_MPA = 412
const HIGH_TENSILE_MPA = 1172

const steelPost = (rule: string, source: string): CataloguePart => ({
  part: 'steel post, 1.8 m',
  kind: 'post',
  rule,
  unitCost: 6,
  lastsSeasons: 15,
  source,
})

export const CATALOGUE: readonly CatalogueSystem[] = [
  {
    id: 'stake-and-weave',
    name: 'Stake and weave',
    says: 'Stakes among the plants, twine woven along both sides of them, one round for every 25 cm of growth.',
    heightM: 1.5,
    lines: 5,
    permanent: false,
    parts: [
      {
        part: 'wooden stake, 1.8 m',
        kind: 'post',
        rule: '1 per 3 plants - 1',
        unitCost: 1.2,
        lastsSeasons: 4,
        source: `${WEAVE}: one at every second or third plant, driven 0.3 m`,
        diameterMm: 38,
        strengthMPa: WOOD_MPA,
      },
      { ...steelPost('1 per end', `${WEAVE}: steel posts at the ends`), kind: 'end post' },
      {
        ...steelPost('1 per 15 plants - 1', `${WEAVE}: steel at every fourth or fifth stake`),
        part: 'steel post between, 1.8 m',
      },
      {
        part: 'twine',
        kind: 'string',
        rule: '2.2 m per m of line',
        unitCost: 0.02,
        lastsSeasons: 1,
        source: `${WEAVE}: first at 20–25 cm, then every 25 cm, both sides; a tenth more for wraps, ${MEMORY}`,
        rollM: 1000,
      },
    ],
    work: [
      { work: 'drive stakes and posts', minutesPerM: 2.5, when: 'putting up' },
      { work: 'weave five rounds', minutesPerM: 3.5, when: 'each season' },
      { work: 'cut twine, pull stakes', minutesPerM: 2, when: 'taking down' },
    ],
  },
  {
    id: 'post-wire-net',
    name: 'Posts, wire and net',
    says: 'A steel post about every 1.5 m, a wire along the top, and a net hung from it.',
    heightM: 1.5,
    lines: 1,
    permanent: false,
    parts: [
      steelPost('1 per 1.5 m + 1', `${COMMON}: about every 5 ft, posts 6 ft long`),
      {
        part: 'wire, 17 gauge',
        kind: 'wire',
        rule: '1.05 m per m of line',
        unitCost: 0.09,
        lastsSeasons: 6,
        source: `${COMMON}: 17 gauge as the top line of a net`,
        rollM: 400,
        diameterMm: GAUGE_17_MM,
        strengthMPa: LOW_CARBON_MPA,
      },
      {
        part: 'net, 1.5 m high',
        kind: 'net',
        rule: '1 m per m',
        unitCost: 0.5,
        lastsSeasons: 4,
        source: `${COMMON}: one meant for a season is kept three to five`,
        rollM: 100,
      },
      { part: 'tie', kind: 'tie', rule: '4 per post', unitCost: 0.03, lastsSeasons: 1, source: MEMORY },
    ],
    work: [
      { work: 'drive posts', minutesPerM: 2, when: 'putting up' },
      { work: 'wire and net', minutesPerM: 3, when: 'putting up' },
      { work: 'guide plants', minutesPerM: 1, when: 'each season' },
      { work: 'clear vines, roll net', minutesPerM: 4, when: 'taking down' },
    ],
  },
  {
    id: 'panel-on-posts',
    name: 'Rigid panels on posts',
    says: 'Welded mesh panels stood on edge between steel posts.',
    heightM: 1.3,
    permanent: false,
    parts: [
      steelPost('1 per 2.4 m + 1', MEMORY),
      {
        part: 'mesh panel, 4.9 m',
        kind: 'panel',
        rule: '1 per 4.9 m',
        unitCost: 28,
        lastsSeasons: 15,
        source: `${MEMORY}: panels 16 ft long`,
      },
      { part: 'clip', kind: 'tie', rule: '3 per post', unitCost: 0.15, lastsSeasons: 5, source: MEMORY },
    ],
    work: [
      { work: 'drive posts, hang panels', minutesPerM: 3, when: 'putting up' },
      { work: 'guide plants', minutesPerM: 0.6, when: 'each season' },
      { work: 'lift panels, pull posts', minutesPerM: 2.5, when: 'taking down' },
    ],
  },
  {
    id: 'single-stakes',
    name: 'Single stakes',
    says: 'One stake to a plant, tied as it grows. One for four or five large plants is too few.',
    heightM: 1.6,
    permanent: false,
    parts: [
      {
        part: 'wooden stake, 1.8 m',
        kind: 'post',
        rule: '1 per plant',
        unitCost: 1.2,
        lastsSeasons: 4,
        source: COMMON,
        diameterMm: 30,
        strengthMPa: WOOD_MPA,
      },
      { part: 'tie', kind: 'tie', rule: '4 per plant', unitCost: 0.03, lastsSeasons: 1, source: MEMORY },
    ],
    work: [
      { work: 'drive stakes', minutesPerM: 3.4, when: 'putting up' },
      { work: 'tie and side-shoot', minutesPerM: 5, when: 'each season' },
      { work: 'pull stakes', minutesPerM: 2, when: 'taking down' },
    ],
  },
  {
    id: 'a-frame',
    name: 'A-frame with strings',
    says: 'Pairs of poles crossed over a ridge pole, strings down both sides.',
    heightM: 2,
    permanent: false,
    parts: [
      {
        part: 'pole, 2.4 m',
        kind: 'post',
        rule: '2 per 2 m + 2',
        unitCost: 0.9,
        lastsSeasons: 4,
        source: MEMORY,
      },
      { part: 'ridge pole', kind: 'other', rule: '1.1 m per m', unitCost: 0.4, lastsSeasons: 4, source: MEMORY },
      {
        part: 'string',
        kind: 'string',
        rule: '9 m per m',
        unitCost: 0.02,
        lastsSeasons: 1,
        source: `${MEMORY}: two strings of 2.2 m for every half metre`,
        rollM: 1000,
      },
    ],
    work: [
      { work: 'set frames, hang strings', minutesPerM: 5, when: 'putting up' },
      { work: 'guide plants', minutesPerM: 0.8, when: 'each season' },
      { work: 'cut down, stack poles', minutesPerM: 3, when: 'taking down' },
    ],
  },
  {
    id: 'overhead-wire',
    name: 'Overhead wire and strings',
    says: 'Tall posts carry one wire overhead; each plant climbs a string dropped from it.',
    heightM: 2.2,
    lines: 1,
    permanent: false,
    parts: [
      {
        part: 'tall post, 2.8 m',
        kind: 'post',
        rule: '1 per 4 m + 1',
        unitCost: 11,
        lastsSeasons: 12,
        source: MEMORY,
        diameterMm: 80,
        strengthMPa: WOOD_MPA,
      },
      {
        part: 'wire, 14 gauge high tensile',
        kind: 'wire',
        rule: '1.05 m per m of line',
        unitCost: 0.14,
        lastsSeasons: 10,
        source: `${MEMORY}; thickness by the gauge`,
        rollM: 400,
        diameterMm: GAUGE_14_MM,
        strengthMPa: HIGH_TENSILE_MPA,
      },
      {
        part: 'drop string',
        kind: 'string',
        rule: '2.6 m per plant',
        unitCost: 0.02,
        lastsSeasons: 1,
        source: MEMORY,
      },
      { part: 'vine clip', kind: 'tie', rule: '5 per plant', unitCost: 0.04, lastsSeasons: 3, source: MEMORY },
    ],
    work: [
      { work: 'set posts and wire', minutesPerM: 4, when: 'putting up' },
      { work: 'clip and lower', minutesPerM: 5, when: 'each season' },
      { work: 'cut down strings', minutesPerM: 1.5, when: 'taking down' },
    ],
  },
  {
    id: 'braced-wirework',
    name: 'Permanent wirework with braced ends',
    says: 'Left up: braced or anchored end posts, line posts about every 6 m, three strained wires.',
    heightM: 1.5,
    lines: 3,
    tensionN: 1112,
    permanent: true,
    parts: [
      {
        part: 'end post, 2.7 m',
        kind: 'end post',
        rule: '1 per end',
        unitCost: 19,
        lastsSeasons: 20,
        source: `${TRELLIS}: 9 ft, 4 ft deep`,
        diameterMm: 125,
        strengthMPa: WOOD_MPA,
      },
      { part: 'brace or anchor', kind: 'brace', rule: '1 per end', unitCost: 16, lastsSeasons: 20, source: ENDS },
      {
        part: 'line post, 2.4 m',
        kind: 'post',
        rule: '1 per 6.1 m - 1',
        unitCost: 11,
        lastsSeasons: 20,
        source: `${TRELLIS}: 8 ft, 3 ft deep, 20 ft apart`,
        diameterMm: 100,
        strengthMPa: WOOD_MPA,
      },
      {
        part: 'wire, 12½ gauge high tensile',
        kind: 'wire',
        rule: '1.05 m per m of line',
        unitCost: 0.17,
        lastsSeasons: 20,
        source: `${TRELLIS}: 12½ gauge, strained to 250 lb`,
        rollM: 400,
        diameterMm: GAUGE_12_5_MM,
        strengthMPa: HIGH_TENSILE_MPA,
      },
      { part: 'strainer', kind: 'other', rule: '1 per line', unitCost: 3.4, lastsSeasons: 15, source: MEMORY },
      { part: 'staple', kind: 'other', rule: '3 per post', unitCost: 0.04, lastsSeasons: 20, source: MEMORY },
    ],
    work: [
      { work: 'set and brace ends', minutesPerM: 2.5, when: 'putting up' },
      { work: 'line posts and wire', minutesPerM: 4, when: 'putting up' },
      { work: 'strain, tie in', minutesPerM: 1.6, when: 'each season' },
      { work: 'clear vines', minutesPerM: 1.5, when: 'each season' },
    ],
  },
  {
    id: 'stock-net-left-up',
    name: 'Stock net left up',
    says: 'Woven wire net on wooden posts, kept for climbers from year to year.',
    heightM: 1.2,
    permanent: true,
    parts: [
      {
        part: 'wooden post, 1.8 m',
        kind: 'post',
        rule: '1 per 3 m + 1',
        unitCost: 4.6,
        lastsSeasons: 12,
        source: MEMORY,
        diameterMm: 80,
        strengthMPa: WOOD_MPA,
      },
      {
        part: 'stock net',
        kind: 'net',
        rule: '1 m per m',
        unitCost: 1.9,
        lastsSeasons: 15,
        source: MEMORY,
        rollM: 50,
      },
      { part: 'staple', kind: 'tie', rule: '4 per post', unitCost: 0.04, lastsSeasons: 12, source: MEMORY },
    ],
    work: [
      { work: 'drive posts, strain net', minutesPerM: 5, when: 'putting up' },
      { work: 'clear vines', minutesPerM: 2, when: 'each season' },
    ],
  },
  {
    id: 'brushwood',
    name: 'Brushwood sticks',
    says: 'Twiggy sticks pushed in along both sides of a row of peas.',
    heightM: 1.2,
    permanent: false,
    parts: [
      {
        part: 'brushwood stick',
        kind: 'other',
        rule: '6 per 1 m',
        unitCost: 0,
        lastsSeasons: 1,
        source: MEMORY,
      },
    ],
    work: [
      { work: 'cut and push in', minutesPerM: 2.4, when: 'putting up' },
      { work: 'pull and chip', minutesPerM: 1.6, when: 'taking down' },
    ],
  },
  {
    id: 'fence-as-support',
    name: 'Fence used as support',
    says: 'A fence that stands anyway; only clips and ties are bought.',
    heightM: 1.8,
    permanent: true,
    parts: [{ part: 'clip', kind: 'tie', rule: '2 per 1 m', unitCost: 0.04, lastsSeasons: 3, source: MEMORY }],
    work: [{ work: 'clear vines', minutesPerM: 2.2, when: 'each season' }],
  },
]

/** The source as a farm's record keeps it in a part's note. */
export const partNote = ({ source }: CataloguePart): string => `Source: ${source}. Price invented.`
