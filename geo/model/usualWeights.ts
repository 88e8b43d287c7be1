/** What a container usually weighs, told in pounds by a published list. `crop` is the crop's plain name. */
export interface UsualWeight {
  readonly unit: string
  readonly crop: string
  readonly lb: number
  readonly source: string
}

const GEORGIA = 'Georgia list of bushel weights'
const IOWA = 'Iowa Code 210.10'
const INDIANA = 'Indiana IC 24-6-1-1'
const NEW_ENGLAND = 'New England Vegetable Guide, table 15'
const MEMORY = 'from memory; 25 to 30 lb are told'

const weights = (unit: string, source: string, told: readonly (readonly [crop: string, lb: number])[]): UsualWeight[] =>
  told.map(([crop, lb]) => ({ unit, crop, lb, source }))

/**
 * Weights that lists publish for trade and that a grower may begin with. They differ by state and source, so each is
 * offered with its source and kept with it; a container weighed on the farm is better.
 */
export const USUAL_WEIGHTS: readonly UsualWeight[] = [
  ...weights('bushel', GEORGIA, [
    ['tomato', 53],
    ['sweet potato', 55],
    ['onion', 57],
    ['cucumber', 48],
    ['eggplant', 33],
    ['squash', 40],
    ['snap bean', 30],
    ['apple', 40],
    ['spinach', 20],
  ]),
  ...weights('bushel', IOWA, [
    ['apple', 48],
    ['cucumber', 48],
    ['carrot', 50],
    ['beet', 56],
  ]),
  ...weights('bushel', INDIANA, [['apple', 42]]),
  ...weights('bushel', MEMORY, [
    ['pepper', 25],
    ['pepper', 30],
  ]),
  ...weights('box, ¾ bushel', NEW_ENGLAND, [['leek', 15]]),
  ...weights('box, 1¾ bushel', NEW_ENGLAND, [['kale', 20]]),
  ...weights('box, 1⅔ bushel', NEW_ENGLAND, [['cabbage', 50]]),
]

/** Other names under which a listed crop may stand in a farm's catalogue. */
const ALSO: Readonly<Record<string, readonly string[]>> = {
  'snap bean': ['bush bean', 'green bean', 'french bean', 'pole bean', 'string bean'],
  eggplant: ['aubergine'],
  beet: ['beetroot'],
  squash: ['summer squash', 'small climbing squash', 'courgette', 'zucchini'],
  pepper: ['bell pepper', 'sweet pepper'],
}

/** Usual weights of a crop by its name, plural or not, in whatever case. */
export function usualWeightsOf(cropName: string): readonly UsualWeight[] {
  const plain = cropName.trim().toLowerCase()
  const singular = plain
    .replace(/ies$/, 'y')
    .replace(/(o|s|x|ch|sh)es$/, '$1')
    .replace(/s$/, '')
  return USUAL_WEIGHTS.filter(({ crop }) =>
    [crop, ...(ALSO[crop] ?? [])].some((name) => name === plain || name === singular),
  )
}
