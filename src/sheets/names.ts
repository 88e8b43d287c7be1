/** The sheets of the plan set in their order; a sheet's number is its place here, from 1. */
export const SHEETS = ['ground', 'growing', 'supports', 'picking', 'yield', 'siting', 'stock'] as const
export type SheetName = (typeof SHEETS)[number]

export const SHEET_TITLE: Readonly<Record<SheetName, string>> = {
  ground: 'Ground',
  growing: 'Growing',
  supports: 'Supports',
  picking: 'Picking',
  yield: 'Yield',
  siting: 'Siting',
  stock: 'Stock',
}

export function sheetNumber(sheet: SheetName): number {
  return SHEETS.indexOf(sheet) + 1
}
