import { useState } from 'preact/hooks'
import type { LiveMeasures, Problem, Tool } from '../../draw/session.ts'
import { areaFigure, type Figure, landFigure, lengthFigure, METRES_PER_FOOT, showNumber } from '../show/figures.ts'
import { layDown, live, session } from '../state/drawing.ts'
import { units } from '../state/farm.ts'
import { lengthUnit } from './formFields.ts'
import { readNumber } from './formValues.ts'

const SNAPPED: Readonly<Record<NonNullable<LiveMeasures['snapped']>, string>> = {
  corner: 'held to a corner',
  edge: 'held to an edge',
  square: 'held square',
  typed: 'held to what was typed',
}

const PROBLEM: Readonly<Record<Problem, string>> = {
  'too few corners': 'It wants more corners.',
  'crosses itself': 'Its outline crosses itself.',
  'no area': 'It encloses no ground.',
  'no length': 'It has no length.',
  'too wide a farm': 'This lies more than 50 km from the farm’s middle, where its metres are no longer true.',
}

/** While something is drawn: its measures, large, as they will be kept; lengths to type; and how to be done. */
export function Pen({ tool: held }: { readonly tool: Tool }) {
  const told = live.value
  const [problem, setProblem] = useState<Problem | null>(null)
  const shown = told?.problem && told.problem !== 'too few corners' ? told.problem : problem
  return (
    <section class="pen" aria-label="On the pen">
      <h2>{titleOf(held)}</h2>
      <div class="pen-figures" aria-live="off">
        {figuresOf(held, told).map(([what, figure]) => (
          <p key={what}>
            <span class="pen-value">
              {figure.value}
              <span class="figure-unit"> {figure.unit}</span>
            </span>
            <span class="pen-what">{what}</span>
          </p>
        ))}
      </div>
      <p class="pen-hint">{shown ? PROBLEM[shown] : told?.snapped ? SNAPPED[told.snapped] : hintOf(held, told)}</p>
      {session.value && held.do === 'draw' && held.what !== 'tree' && (
        <div class="pen-typed">
          <Exact label={held.what === 'bed' ? 'Length' : 'This side'} take={(m) => session.value?.typeLength(m)} />
          {held.what === 'bed' && <Exact label="Width" take={(m) => session.value?.typeWidth(m)} />}
        </div>
      )}
      <p class="deeds">
        <button type="button" class="first-deed" onClick={() => setProblem(session.value?.finish() ?? null)}>
          Done
        </button>
        <button type="button" onClick={() => session.value?.takeBack()}>
          Back one
        </button>
        <button type="button" onClick={layDown}>
          Give up
        </button>
      </p>
    </section>
  )
}

/** An exact length to hold to, typed in the person's unit; empty lets go. */
function Exact({ label, take }: { readonly label: string; readonly take: (lengthM: number | null) => void }) {
  const metres = units.value === 'us' ? METRES_PER_FOOT : 1
  return (
    <label>
      {label}, {lengthUnit(units.value)}
      <input
        type="text"
        inputMode="decimal"
        autocomplete="off"
        onInput={(event) => {
          const typed = readNumber(event.currentTarget.value)
          take(typed !== null && typed > 0 ? typed * metres : null)
        }}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return
          event.preventDefault()
          session.value?.putCorner()
        }}
      />
    </label>
  )
}

function titleOf(held: Tool): string {
  if (held.do === 'edit') return 'Reshaping'
  return held.what === 'bed outline' ? 'A bed, by its outline' : `A ${held.what}`
}

function figuresOf(held: Tool, told: LiveMeasures | null): readonly (readonly [string, Figure])[] {
  const none: Figure = { value: '–', unit: '' }
  const length = (m: number | null | undefined) => (m === null || m === undefined ? none : lengthFigure(m, units.value))
  const what = held.do === 'draw' ? held.what : held.kind
  if (what === 'tree' || what === 'trees') return []
  if (what === 'field' || what === 'fields')
    return [
      ['area', told?.areaM2 ? landFigure(told.areaM2, units.value) : none],
      ['this side', length(told?.segmentM)],
    ]
  const bearing: Figure =
    told?.bearingDeg === null || told === null ? none : { value: showNumber(told.bearingDeg, 0), unit: '°' }
  if (what === 'row' || what === 'rows' || what === 'support' || what === 'supports')
    return [
      ['long', length(told?.lengthM)],
      ['this stretch', length(told?.segmentM)],
      ['bearing', bearing],
    ]
  return [
    ['long', length(told?.lengthM)],
    ['wide', length(told?.widthM)],
    ['area', told?.areaM2 ? areaFigure(told.areaM2, units.value) : none],
    ['bearing', bearing],
  ]
}

function hintOf(held: Tool, told: LiveMeasures | null): string {
  if (held.do === 'edit') return 'Drag a corner, or choose one and move it with the arrow keys. Delete takes it away.'
  const corners = told?.corners ?? 0
  if (held.what === 'tree') return 'Tap where its trunk stands.'
  if (held.what === 'bed')
    return [
      'Tap one end of the bed.',
      'Tap its other end, or type its length.',
      'Tap its far edge, or type its width.',
    ][Math.min(corners, 2)]!
  if (corners === 0) return held.what === 'field' ? 'Tap the first corner.' : 'Tap one end.'
  return held.what === 'field' || held.what === 'bed outline'
    ? 'Tap corner after corner; tap the first again to be done.'
    : 'Tap the next point; tap the last again to be done.'
}
