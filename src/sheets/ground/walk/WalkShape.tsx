import { useState } from 'preact/hooks'
import type { Plane } from '../../../../geo/plane/plane.ts'
import type { Walk } from '../../../../geo/track/readWalk.ts'
import type { WalkedBy, WalkedJudgement, WalkedShape } from '../../../../geo/track/walkedShape.ts'
import { measureShape } from '../../../draw/measureShape.ts'
import { NO_MEASURES } from '../../../draw/noMeasures.ts'
import { problemOf } from '../../../draw/problemOf.ts'
import { geometryOf, type Shape } from '../../../draw/shape.ts'
import { Choice } from '../../../ui/Choice.tsx'
import { Entry } from '../../../ui/Entry.tsx'
import { From } from '../../../ui/From.tsx'
import { NumberEntry } from '../../../ui/NumberEntry.tsx'
import { showDay } from '../../show/dates.ts'
import { landFigure, lengthFigure, METRES_PER_FOOT, showCount } from '../../show/figures.ts'
import { propose } from '../../state/drawing.ts'
import { units } from '../../state/farm.ts'
import { closeWalk, walking } from '../../state/walking.ts'
import { lengthUnit } from '../formFields.ts'
import { readNumber } from '../formValues.ts'
import { LaidFigures } from '../laying/LaidFigures.tsx'
import { accuracyFigure, type Becomes, judgementWords, noteOf } from './walkWords.ts'

interface Props {
  readonly walk: Walk
  readonly plane: Plane
  readonly shape: WalkedShape
  readonly judgement: WalkedJudgement
  readonly becomes: Becomes
  readonly onBecomes: (becomes: Becomes) => void
  readonly by: WalkedBy
  readonly onBy: (by: WalkedBy) => void
  readonly toleranceM: number
  readonly onTolerance: (toleranceM: number) => void
  readonly closed: boolean
}

const BECOMES: readonly (readonly [Becomes, string])[] = [
  ['fields', 'A field'],
  ['structures', 'A structure, by its outline'],
  ['structure line', 'A fence, path or other line'],
  ['beds', 'A bed'],
  ['rows', 'A row'],
]

const PROBLEM = {
  'too few corners': 'It wants more corners: hold at each, or take the way as walked.',
  'crosses itself': 'Its outline crosses itself. A greater tolerance, or fewer corners, may mend it.',
  'no area': 'It encloses no ground.',
  'no length': 'It has no length.',
  'too wide a farm': 'It lies more than 50 km from the farm’s middle, where its metres are no longer true.',
} as const

/** What the walk makes: how it is made, how sure it is, and on to the form of its record. */
export function WalkShape(props: Props) {
  const { walk, plane, shape, judgement, becomes, by, toleranceM, closed } = props
  const { file } = walking.value!
  const metres = units.value === 'us' ? METRES_PER_FOOT : 1
  const [typed, setTyped] = useState<string | null>(null)
  const drawn: Shape = closed
    ? { type: 'Polygon', parts: [shape.corners] }
    : { type: 'LineString', parts: [shape.corners] }
  const problem = shape.corners.length < 2 ? 'too few corners' : problemOf(drawn)
  const measures = problem ? null : measureShape(drawn, becomes === 'beds')
  const warning = judgementWords(becomes, judgement, shape.accuracyM)
  const heldAny = walk.parts.some((part) => part.is === 'held' && part.corner)
  const tooPoor = shape.accuracyM !== null && (judgement.fit === 'too poor' || (warning !== null && isNarrow(becomes)))

  const goOn = () => {
    const geometry = geometryOf(drawn, plane)
    const made = { accuracyM: shape.accuracyM, corners: shape.corners.length, held: by === 'corners' }
    const first = walk.parts.length > 0 ? walking.value!.events.find((event) => event.does === 'fix') : undefined
    const atMs = first?.does === 'fix' ? first.atMs : null
    const note = noteOf(made, { file, day: atMs === null ? 'an unknown day' : showDay(dayOfMs(atMs)) }, units.value)
    const kind = becomes === 'structure line' ? 'structures' : becomes
    closeWalk()
    propose(
      kind,
      {
        geometry,
        measures: {
          ...NO_MEASURES,
          ...measureShape(drawn, kind === 'beds'),
          corners: shape.corners.length,
        },
      },
      // A row has no note of its own in the archive: it is told beside its fields.
      kind === 'rows' ? { extra: { note } } : { values: { note } },
    )
  }
  return (
    <>
      <LaidFigures
        figures={[
          ['corners', { value: showCount(shape.corners.length), unit: '' }],
          ...(measures?.areaM2 ? [['area', landFigure(measures.areaM2, units.value)] as const] : []),
          ...(judgement.areaOffM2 !== null && measures?.areaM2
            ? [['may be off by', landFigure(judgement.areaOffM2, units.value)] as const]
            : []),
          ...(!closed && measures?.lengthM ? [['long', lengthFigure(measures.lengthM, units.value)] as const] : []),
          ...(shape.accuracyM !== null
            ? [['each corner', plusMinus(accuracyFigure(shape.accuracyM, units.value))] as const]
            : []),
        ]}
      />
      <Entry label="It becomes">
        {(names) => (
          <select
            {...names}
            value={becomes}
            onChange={(event) => props.onBecomes(event.currentTarget.value as Becomes)}
          >
            {BECOMES.map(([value, words]) => (
              <option key={value} value={value}>
                {words}
              </option>
            ))}
          </select>
        )}
      </Entry>
      {warning && <p class="fault">{warning}</p>}
      {heldAny && (
        <div class="entry walk-by">
          <Choice
            label="Made of"
            value={by}
            onChange={props.onBy}
            options={[
              { value: 'corners', words: 'The corners held' },
              { value: 'way', words: 'All of the way' },
            ]}
          />
        </div>
      )}
      {by === 'way' && (
        <NumberEntry
          label={`Tolerance, ${lengthUnit(units.value)}`}
          hint="Bends smaller than this are taken for straight."
          fault={typed !== null && !isTolerance(readNumber(typed)) ? 'It must be a number, zero or more.' : null}
          value={typed ?? String(Number((toleranceM / metres).toFixed(2)))}
          onType={(text) => {
            setTyped(text)
            const value = readNumber(text)
            if (isTolerance(value)) props.onTolerance(value * metres)
          }}
        />
      )}
      <From about="a walked shape">
        A corner held is the mean of the positions told while standing still. Left out are positions less sure than 30
        m, and, where positions lie as near to each other as a walker’s, those more than three robust standard
        deviations (1.4826 times the median absolute deviation) from the median of their neighbours (Hampel’s rule). Of
        a route, and of a track that tells neither times nor how sure it is, none is left out. The way is simplified
        after Douglas and Peucker. How sure a corner is, is what the device itself estimates, for 95 in 100; standing
        longer steadies a corner but does not make the satellites truer, so nothing is taken off for that. The area’s
        error follows from the corners’, taken as independent.
      </From>
      {problem && (
        <p class="fault" role="alert">
          {PROBLEM[problem]}
        </p>
      )}
      <p class="deeds">
        <button type="button" class={tooPoor ? '' : 'first-deed'} disabled={problem !== null} onClick={goOn}>
          {tooPoor ? 'Use it all the same' : 'Name it'}
        </button>
      </p>
    </>
  )
}

const isTolerance = (value: number | null): value is number => value !== null && value >= 0
const isNarrow = (becomes: Becomes) => becomes === 'beds' || becomes === 'rows'
const plusMinus = ({ value, unit }: { value: string; unit: string }) => ({ value: `± ${value}`, unit })

function dayOfMs(atMs: number): string {
  const at = new Date(atMs)
  const two = (n: number) => String(n).padStart(2, '0')
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`
}
