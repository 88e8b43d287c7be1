/** The map's colours. By day paper and ink; by night (and in strong sun) a dark, high-contrast twin. */
export interface Palette {
  readonly paper: string
  readonly ground: string
  readonly ink: string
  readonly softInk: string
  readonly rule: string
  readonly madder: string
  readonly tree: string
  readonly water: string
  /** Behind labels. */
  readonly halo: string
}

export const DAY: Palette = {
  paper: '#f7f4ea',
  ground: '#f1ecdc',
  ink: '#22302c',
  softInk: '#5b655f',
  rule: '#d8d2c0',
  madder: '#9a3324',
  tree: '#3f5a33',
  water: '#5d7f86',
  halo: '#f7f4ea',
}

export const NIGHT: Palette = {
  paper: '#101614',
  ground: '#18211e',
  ink: '#f3efe2',
  softInk: '#b9c2bb',
  rule: '#3a4642',
  madder: '#ff9a86',
  tree: '#9cc78a',
  water: '#8fc3cd',
  halo: '#101614',
}
