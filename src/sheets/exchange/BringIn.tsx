import { useState } from 'preact/hooks'
import type { BringPreview } from '../../desk/door.ts'
import { Entry } from '../../ui/Entry.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { lengthFigure, told } from '../show/figures.ts'
import {
  bringBusy,
  bringFault,
  bringing,
  brought,
  giveUpBringing,
  keepBrought,
  keepingBrought,
  preview,
  readAgain,
  stopReading,
  takeOtherwise,
} from '../state/bringing.ts'
import { progress, units } from '../state/farm.ts'
import { BroughtMarks } from './BroughtMarks.tsx'
import { FaultList } from './FaultList.tsx'
import { countWords } from './fieldWords.ts'
import { LayerPlanner } from './LayerPlanner.tsx'
import { PlaceColumns } from './PlaceColumns.tsx'

/** Stands in the table's place while a file of another program is brought in. */
export function BringIn() {
  const now = bringing.value
  if (bringBusy.value !== null && !now)
    return (
      <section class="bring-in" aria-label="Bring in">
        <Progress
          doing={bringBusy.value}
          {...(progress.value && { done: progress.value.done, of: progress.value.of })}
        />
        <p class="deeds">
          <button type="button" onClick={stopReading}>
            Stop
          </button>
        </p>
      </section>
    )
  return (
    <section class="bring-in" aria-label="Bring in">
      {now ? (
        <Plans />
      ) : (
        <>
          <Amiss />
          <Done />
        </>
      )}
    </section>
  )
}

function Amiss() {
  const fault = bringFault.value
  if (!fault) return null
  return (
    <>
      <p class="fault" role="alert">
        {fault.detail}
      </p>
      {fault.faults && <FaultList title="What is wrong" faults={fault.faults} />}
    </>
  )
}

function Done() {
  return (
    <>
      {brought.value && (
        <>
          <p role="status">{brought.value.words}</p>
          <FaultList title="Left out, or assumed" faults={brought.value.leftOut} />
        </>
      )}
      <p class="deeds">
        <button type="button" class="first-deed" onClick={giveUpBringing}>
          Understood
        </button>
      </p>
    </>
  )
}

function Plans() {
  const { files, look, readAs, plans, replaces, acceptsOutside } = bringing.value!
  const seen = preview.value
  const count = seen?.counts.reduce((sum, one) => sum + one.count, 0) ?? 0
  return (
    <>
      <h2>Bring in {look.fileName}</h2>
      <p class="hint">
        Say what each layer of this {look.format} file is. Columns that are given to no field are kept beside the
        record.
      </p>
      {look.table ? (
        <PlaceColumns
          key={`${look.fileName} ${files[0]?.lastModified}`}
          look={look}
          table={look.table}
          readAs={readAs}
        />
      ) : (
        look.asksGrid && <GridEntry />
      )}
      {seen && <BroughtMarks shapes={seen.shapes} undrawn={seen.undrawn} />}
      {look.layers.map((layer, i) => (
        <LayerPlanner key={layer.name + i} layer={layer} plan={plans[i]!} index={i} />
      ))}
      <label class="check">
        <input
          type="checkbox"
          checked={replaces}
          onChange={(event) => takeOtherwise({ replaces: event.currentTarget.checked })}
        />
        What has the id of a record of this farm changes that record
      </label>
      {seen && seen.outside.counts.length > 0 && (
        <label class="check">
          <input
            type="checkbox"
            checked={acceptsOutside}
            onChange={(event) => takeOtherwise({ acceptsOutside: event.currentTarget.checked })}
          />
          {outsideWords(seen.outside)}
        </label>
      )}
      <p class="bring-sum" role="status">
        {count === 0
          ? 'Nothing would be kept yet.'
          : `Would be kept: ${seen!.counts.map((one) => countWords(one.kind, one.count)).join(', ')}.`}
      </p>
      <Amiss />
      <p class="deeds">
        <button
          type="button"
          class="first-deed"
          disabled={count === 0 || bringBusy.value !== null || keepingBrought.value}
          onClick={() => void keepBrought()}
        >
          Keep in this farm
        </button>
        <button type="button" disabled={keepingBrought.value} onClick={giveUpBringing}>
          Give up
        </button>
      </p>
      <FaultList title="Would be left out" faults={seen?.leftOut ?? []} />
      <FaultList title="Noted" faults={[...look.notes, ...(seen?.notes ?? [])]} />
    </>
  )
}

const REACHES: Readonly<Record<string, string>> = { beds: 'out of their field', rows: 'out of their bed' }

/** What reaches out, how far, and what ticking does. */
function outsideWords({ counts, farthestM }: BringPreview['outside']): string {
  const reach = counts.map(({ kind, count }) => `${countWords(kind, count)} ${REACHES[kind]}`).join(' and ')
  return `Keep what reaches out: ${reach}, by up to ${told(lengthFigure(farthestM, units.value))}`
}

function GridEntry() {
  const [grid, setGrid] = useState('')
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        if (grid.trim() !== '') void readAgain({ grid: grid.trim(), columns: null })
      }}
    >
      <Entry label="Grid of its coordinates" hint="An EPSG code, such as EPSG:25833, or a PROJ string.">
        {(names) => (
          <input
            {...names}
            type="text"
            autocomplete="off"
            value={grid}
            onInput={(e) => setGrid(e.currentTarget.value)}
          />
        )}
      </Entry>
      <p class="deeds">
        <button type="submit">Read it in this grid</button>
      </p>
    </form>
  )
}
