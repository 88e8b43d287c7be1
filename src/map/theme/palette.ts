/** How the page and the map look: paper and ink by day, their dark twin by night, and black on white for strong sun. */
export type Look = 'day' | 'night' | 'sun'

/** The map's colours in one look. As in src/styles/tokens.css. */
export interface Palette {
  readonly paper: string
  /** A field's ground and a bed's. */
  readonly field: string
  readonly bed: string
  readonly ink: string
  readonly soft: string
  readonly rule: string
  readonly madder: string
  readonly tree: string
  readonly water: string
  /** Ground that lies in shadow. */
  readonly shade: string
}

export const DAY: Palette = {
  paper: '#f7f4ea',
  field: '#f0ebdb',
  bed: '#fdfbf2',
  ink: '#22302c',
  soft: '#56605a',
  rule: '#d8d2c0',
  madder: '#9a3324',
  tree: '#3f5a33',
  water: '#5d7f86',
  shade: '#c9c6b8',
}

/** By day, on white paper: grounds as light as they can be and still be told apart, to spare ink. */
export const ON_PAPER: Palette = { ...DAY, paper: '#ffffff', field: '#f6f2e7', bed: '#fffefb' }

export const NIGHT: Palette = {
  paper: '#14120c',
  field: '#1f1b12',
  bed: '#0b0a07',
  ink: '#fbf6e6',
  soft: '#cdc6b2',
  rule: '#474231',
  madder: '#ff9a80',
  tree: '#a8cf8e',
  water: '#93c3cd',
  shade: '#3d4347',
}

/** White and black, every word at 7 : 1: a screen in the sun loses most of its contrast. */
export const SUN: Palette = {
  paper: '#ffffff',
  field: '#f1efe6',
  bed: '#ffffff',
  ink: '#000000',
  soft: '#2b332f',
  rule: '#8a867a',
  shade: '#c3c3bb',
  madder: '#7d1608',
  tree: '#1f4410',
  water: '#0c4a57',
}

export const PALETTES: Readonly<Record<Look, Palette>> = { day: DAY, night: NIGHT, sun: SUN }
