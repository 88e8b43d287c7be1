/** What a column of a notebook may tell. */
export const TELLS = [
  'day',
  'crop',
  'variety',
  'bed',
  'row',
  'planting',
  'quantity',
  'unit',
  'grade',
  'picker',
  'note',
  'to',
  'use',
  'lon',
  'lat',
] as const
export type Tells = (typeof TELLS)[number]

/** Which column (from 0) tells what; what no column tells is left out. */
export type Columns = { readonly [T in Tells]?: number }

/** Words by which people head a column, plain and in small letters. */
const HEADS: Readonly<Record<Tells, readonly string[]>> = {
  day: ['day', 'date', 'on', 'when', 'picked on', 'harvest date', 'date picked'],
  crop: ['crop', 'what', 'vegetable', 'produce', 'item', 'product', 'plant'],
  variety: ['variety', 'cultivar', 'sort', 'kind'],
  bed: ['bed', 'place', 'where', 'location', 'plot'],
  row: ['row', 'side', 'line'],
  planting: ['planting', 'planting id'],
  quantity: [
    'quantity',
    'qty',
    'amount',
    'how much',
    'how many',
    'number',
    'count',
    'weight',
    'mass',
    'yield',
    'kg',
    'lb',
    'lbs',
  ],
  unit: ['unit', 'units', 'container', 'measure', 'in'],
  grade: ['grade', 'quality', 'class'],
  picker: ['picker', 'picked by', 'who', 'by', 'person', 'harvester', 'harvested by', 'name'],
  note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments'],
  to: ['to', 'for whom', 'given to', 'went to', 'received by', 'share', 'household'],
  use: ['use', 'for', 'for what', 'purpose'],
  lon: ['lon', 'longitude', 'lng', 'long'],
  lat: ['lat', 'latitude'],
}

const plain = (head: string) =>
  head
    .toLowerCase()
    .replace(/\(.*?\)|\[.*?\]/g, ' ')
    .replace(/[_\-./:]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()

/** Which columns tell what, by their heads: a whole head first, then one that begins with the word. No column tells two things. */
export function guessColumns(heads: readonly string[]): Columns {
  const found: { [T in Tells]?: number } = {}
  const taken = new Set<number>()
  for (const fits of [
    (head: string, word: string) => head === word,
    (head: string, word: string) => word.length > 2 && head.split(' ').includes(word),
  ])
    for (const tells of TELLS) {
      if (found[tells] !== undefined) continue
      const at = heads.findIndex((head, i) => !taken.has(i) && HEADS[tells].some((word) => fits(plain(head), word)))
      if (at < 0) continue
      found[tells] = at
      taken.add(at)
    }
  return found
}

/** True where a first line heads its columns: it names the day or the quantity, and holds no number by itself. */
export function isHead(cells: readonly string[]): boolean {
  const { day, quantity, crop, bed } = guessColumns(cells)
  const named = [day, quantity, crop, bed].filter((at) => at !== undefined).length
  return named >= 2 && !cells.some((cell) => /^[\d.,/-]+$/.test(cell))
}

/** The unit that the head of the quantity's column tells: "Weight (kg)", "lbs". */
export function unitInHead(head: string): string | null {
  const told = /[([]\s*([^)\]]+?)\s*[)\]]/.exec(head)?.[1] ?? head
  const word = told.trim().toLowerCase()
  return /^(kg|kgs|kilos?|g|grams?|lb|lbs|pounds?|oz|ounces?)$/.test(word) ? word : null
}
