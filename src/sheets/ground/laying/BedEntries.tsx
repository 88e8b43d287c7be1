import { showNumber } from '../../show/figures.ts'
import { directionOf } from './compass.ts'
import { LengthEntry, PlanChoice, TypedEntry } from './PlanEntries.tsx'
import type { PlanFaults, PlanTyped } from './planTyped.ts'
import { dropLine } from './takeBearing.ts'

interface Props {
  readonly typed: PlanTyped
  readonly faults: PlanFaults
  readonly sides: { readonly left: string; readonly right: string }
  /** There are beds in the field that new ones can lie along. */
  readonly hasBeds: boolean
  readonly lineDeg: number | null
  readonly takeLine: () => void
  readonly drawingLine: boolean
}

/** How beds lie in a field. */
export function BedEntries({ typed, faults, sides, hasBeds, lineDeg, takeLine, drawingLine }: Props) {
  const said = { typed, faults }
  return (
    <>
      <PlanChoice
        {...said}
        entry="along"
        label="They run along"
        options={[
          { value: 'edge', words: 'Longest side' },
          ...(hasBeds ? [{ value: 'beds', words: 'Its beds' }] : []),
          { value: 'line', words: 'A line' },
          { value: 'typed', words: 'Bearing' },
        ]}
      />
      {typed.along === 'typed' && (
        <TypedEntry
          {...said}
          entry="bearing"
          label="Bearing, degrees"
          hint="Clockwise from north: 90 runs west to east."
        />
      )}
      {typed.along === 'line' && (
        <div class="entry">
          <p class="hint" role="status">
            {drawingLine
              ? 'Put down two places on the map: tap them, or move the crosshair with the arrow keys and press Enter.'
              : lineDeg === null
                ? 'No line yet; until there is one, the longest side is taken.'
                : `Along your line, at ${showNumber(lineDeg, 1)}°.`}
          </p>
          <button type="button" onClick={drawingLine ? dropLine : takeLine}>
            {drawingLine ? 'Give the line up' : lineDeg === null ? 'Put a line on the map' : 'Another line'}
          </button>
        </div>
      )}
      <PlanChoice
        {...said}
        entry="by"
        label="As many as fit of a width, or so many"
        options={[
          { value: 'width', words: 'By width' },
          { value: 'count', words: 'By number' },
        ]}
      />
      <div class="pair">
        {typed.by === 'width' ? (
          <LengthEntry {...said} entry="width" label="Bed" />
        ) : (
          <TypedEntry {...said} entry="count" label="Beds" />
        )}
        <LengthEntry {...said} entry="path" label="Path" />
        <LengthEntry {...said} entry="headland" label="Headland" />
      </div>
      <PlanChoice
        {...said}
        entry="headlandWhere"
        label="Headland left"
        options={[
          { value: 'all round', words: 'All round' },
          { value: 'ends', words: 'At the ends' },
        ]}
      />
      {typed.by === 'width' && (
        <PlanChoice
          {...said}
          entry="begin"
          label="The first bed lies"
          options={[
            { value: 'left', words: `At the ${directionOf(sides.left)}` },
            { value: 'right', words: `At the ${directionOf(sides.right)}` },
            { value: 'most', words: 'Where most fits' },
          ]}
        />
      )}
      <details class="more" open={MORE.some((entry) => faults[entry])}>
        <summary>Lengths, and what to keep clear of</summary>
        <PlanChoice
          {...said}
          entry="pieces"
          label="Where something cuts a bed in two"
          options={[
            { value: 'longest', words: 'Longest piece' },
            { value: 'every', words: 'Every piece' },
          ]}
        />
        <div class="pair">
          <LengthEntry {...said} entry="least" label="Shortest bed" />
          <LengthEntry {...said} entry="length" label="All exactly" hint="Empty: as long as fits." />
        </div>
        <p class="hint">Kept clear of, on all sides:</p>
        <div class="pair">
          <LengthEntry {...said} entry="trees" label="Canopies" />
          <LengthEntry {...said} entry="structures" label="Structures" />
          <LengthEntry {...said} entry="beds" label="Other beds" />
        </div>
      </details>
    </>
  )
}

const MORE = ['least', 'length', 'trees', 'structures', 'beds'] as const
