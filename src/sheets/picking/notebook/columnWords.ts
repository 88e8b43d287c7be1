import { TELLS, type Tells } from '../../../../geo/notebook/columns.ts'

/** What a column may tell, in words. */
const WORDS: Readonly<Record<Tells, string>> = {
  day: 'the day',
  crop: 'the crop',
  variety: 'the variety',
  bed: 'the bed',
  row: 'the row or side',
  planting: 'the planting’s id',
  quantity: 'how much',
  unit: 'the unit or container',
  grade: 'the grade',
  picker: 'who picked',
  note: 'a note',
  to: 'who had it',
  use: 'what for',
  lon: 'longitude',
  lat: 'latitude',
}

export const COLUMN_OPTIONS: readonly { readonly value: Tells; readonly words: string }[] = TELLS.map((value) => ({
  value,
  words: WORDS[value],
}))
