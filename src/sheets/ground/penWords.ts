import type { Drawn, LiveMeasures, Problem, Tool } from '../../draw/session.ts'
import type { SnapName } from '../../draw/snap.ts'
import { areaFigure, type Figure, landFigure, lengthFigure, showNumber } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { KIND_WORD } from './formFields.ts'

export const SNAP_LABEL: Readonly<Record<SnapName, string>> = {
  corner: 'corners',
  edge: 'edges',
  square: 'right angles',
  parallel: 'parallels',
  extension: 'extensions',
}

const HELD: Readonly<Record<SnapName, string>> = {
  corner: 'a corner',
  edge: 'an edge',
  square: 'a right angle',
  parallel: 'a parallel',
  extension: 'an edge carried on',
}

/** What the pointer is held to, in words; null where it is free. */
export function heldWords(told: LiveMeasures | null): string | null {
  if (!told?.snapped) return null
  if (told.snapped === 'typed') return 'Held to what was typed.'
  return `Held to ${[...new Set(told.held.map((name) => HELD[name]))].join(' and ')}. Alt lets go.`
}

export const PROBLEM: Readonly<Record<Problem, string>> = {
  'too few corners': 'It wants more corners.',
  'crosses itself': 'Its outline crosses itself.',
  'no area': 'It encloses no ground.',
  'no length': 'It has no length.',
  'too wide a farm': 'This lies more than 50 km from the farm’s middle, where its metres are no longer true.',
  'leaves its ground': 'The hole does not lie wholly inside.',
  'cuts nothing': 'It divides nothing yet: begin and end outside.',
}

const TITLE: Readonly<Record<Drawn, string>> = {
  field: 'A field',
  'field rectangle': 'A field, right-angled',
  bed: 'A bed',
  'bed outline': 'A bed, by its outline',
  row: 'A row',
  support: 'A support',
  tree: 'A tree',
  'structure point': 'A structure, at a place',
  'structure line': 'A structure, along a line',
  'structure area': 'A structure, by its outline',
  observation: 'An observation',
  hole: 'A hole',
  cut: 'A cut',
  measure: 'Measuring',
}

export function titleOf(held: Tool): string {
  switch (held.do) {
    case 'draw':
      return TITLE[held.what]
    case 'edit':
      return `Reshaping a ${KIND_WORD[held.kind]}`
    case 'move': {
      const [first] = held.things
      return held.things.length === 1 && first
        ? `Moving a ${KIND_WORD[first.kind]}`
        : `Moving ${held.things.length} things`
    }
    default:
      return 'Selecting'
  }
}

const NONE: Figure = { value: '–', unit: '' }
const degrees = (deg: number | null | undefined, decimals: number): Figure =>
  deg === null || deg === undefined ? NONE : { value: showNumber(deg, decimals), unit: '°' }
const length = (m: number | null | undefined) => (m === null || m === undefined ? NONE : lengthFigure(m, units.value))

/** The pen's figures: what each is, and the figure. */
export function figuresOf(held: Tool, told: LiveMeasures | null): readonly (readonly [string, Figure])[] {
  if (held.do === 'move')
    return [
      ['moved', length(told?.moved?.distanceM ?? 0)],
      ['toward', told?.moved && told.moved.distanceM > 0 ? degrees(told.moved.bearingDeg, 1) : NONE],
      ['turned', degrees(told?.moved?.turnDeg ?? 0, 1)],
    ]
  if (held.do !== 'draw' && held.do !== 'edit') return []
  const side = ['this side', length(told?.segmentM)] as const
  const way = ['its bearing', degrees(told?.segmentDeg, 1)] as const
  if (held.do === 'draw' && held.what === 'measure')
    return [
      ['in all', length(told?.lengthM)],
      side,
      way,
      ['enclosed', told?.areaM2 ? landFigure(told.areaM2, units.value) : NONE],
    ]
  const form = formOf(held)
  if (form === 'point') return []
  if (form === 'land') return [['area', told?.areaM2 ? landFigure(told.areaM2, units.value) : NONE], side, way]
  if (form === 'line') return [['long', length(told?.lengthM)], ['this stretch', length(told?.segmentM)], way]
  return [
    ['long', length(told?.lengthM)],
    ['wide', length(told?.widthM)],
    ['area', told?.areaM2 ? areaFigure(told.areaM2, units.value) : NONE],
    ['bearing', degrees(told?.bearingDeg, 1)],
  ]
}

/** By which figures a thing is told. */
function formOf(held: Extract<Tool, { do: 'draw' | 'edit' }>): 'point' | 'line' | 'land' | 'strip' {
  if (held.do === 'edit') {
    if (held.kind === 'beds') return 'strip'
    return held.geometry.type === 'Point' ? 'point' : held.geometry.type === 'LineString' ? 'line' : 'land'
  }
  switch (held.what) {
    case 'tree':
    case 'observation':
    case 'structure point':
      return 'point'
    case 'row':
    case 'support':
    case 'structure line':
    case 'cut':
    case 'measure':
      return 'line'
    case 'bed':
    case 'bed outline':
    case 'field rectangle':
      return 'strip'
    default:
      return 'land'
  }
}

/** What to do next. */
export function hintOf(held: Tool, told: LiveMeasures | null): string {
  if (held.do === 'edit')
    return 'Drag a corner, or choose one and move it with the arrow keys, or by a tap elsewhere. The small marks make new ones.'
  if (held.do === 'move')
    return 'Drag it; turn it by the mark beyond it. Arrow keys move it, comma and full stop turn it.'
  if (held.do !== 'draw') return ''
  const corners = told?.corners ?? 0
  switch (held.what) {
    case 'tree':
      return 'Tap where its trunk stands.'
    case 'observation':
    case 'structure point':
      return 'Tap the place.'
    case 'bed':
    case 'field rectangle': {
      const what = held.what === 'bed' ? 'bed' : 'field'
      return [
        `Tap one end of the ${what}.`,
        'Tap the other end, or type how long.',
        'Tap the far edge, or type how wide.',
      ][Math.min(corners, 2)]!
    }
    case 'measure':
      return corners < 2
        ? 'Tap from place to place. Nothing is kept.'
        : 'Tap the last place again to begin another line, the first to close it.'
    case 'cut':
      return corners === 0
        ? 'Tap outside, on one side of it.'
        : 'Go across it and end outside; tap the last place again to be done.'
    case 'row':
    case 'support':
    case 'structure line':
      return corners === 0 ? 'Tap one end.' : 'Tap the next point; tap the last again to be done.'
    default:
      return corners === 0 ? 'Tap the first corner.' : 'Tap corner after corner; tap the first again to be done.'
  }
}
