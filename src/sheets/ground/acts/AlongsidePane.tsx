import { useEffect, useState } from 'preact/hooks'
import type { AnyRecord } from '../../../../geo/model/kind.ts'
import { alongside } from '../../../draw/ops/alongside.ts'
import { linesOf } from '../../../draw/placeGeometry.ts'
import { Choice } from '../../../ui/Choice.tsx'
import { closeAct } from '../../state/drawing.ts'
import { keepEdits } from '../../state/keepEdits.ts'
import { newId } from '../../state/newId.ts'
import type { HeldThing } from '../../state/placed.ts'
import { recordsWith } from '../../state/riders.ts'
import { layers } from '../../state/shown.ts'
import { Exact } from '../Exact.tsx'
import { ActFrame } from './ActFrame.tsx'
import { copiesAt, copyEdits } from './copyPlan.ts'
import { farmPlane, usePreview } from './onMap.ts'
import { compassOf, countWords } from './thingWords.ts'

const MOST = 500

/** Copies of what stands, alongside it: how many, how far apart, on which side. */
export function AlongsidePane({ things }: { readonly things: readonly HeldThing[] }) {
  const plane = farmPlane()
  const corners = things.flatMap(({ geometry }) => linesOf(geometry, plane).flat())
  const places = things.every(({ geometry }) => geometry.type === 'Point')
  const [count, setCount] = useState(1)
  const [gapM, setGap] = useState<number | null>(places ? 5 : 0.5)
  const [side, setSide] = useState<1 | -1>(1)
  const [withRows, setWithRows] = useState(true)
  const [rows, setRows] = useState<readonly AnyRecord[] | null>(null)
  const beds = things.flatMap(({ kind, id }) => (kind === 'beds' ? [id] : []))
  const selected = new Set(things.map(({ id }) => id))
  useEffect(() => {
    recordsWith('rows', 'bed', beds).then(
      (found) => setRows(found.filter(({ id }) => !selected.has(id))),
      () => setRows(null),
    )
  }, [things])
  const [right] = alongside(corners, 1, { pitchM: 1 }, 1)
  const sides = [1, -1].map((way) => compassOf([right![0] * way, right![1] * way]))
  const shifts = gapM === null ? [] : alongside(corners, count, places ? { pitchM: gapM } : { betweenM: gapM }, side)
  const mine = withRows ? (rows ?? []) : []
  usePreview(
    copiesAt(things, mine, shifts, plane).map((copy, n) => ({ ...copy, id: String(n) })),
    false,
  )
  const why =
    rows === null
      ? 'What stands in the bed could not be read yet.'
      : gapM === null
        ? 'Say how far apart.'
        : count < 1 || count > MOST
          ? `Between 1 and ${MOST} copies.`
          : null
  const keep = async () => {
    const edits = copyEdits(things, mine, shifts, namesIn, plane, newId)
    const what = things.length === 1 ? countWords(things).slice(2) : countWords(things)
    if (await keepEdits(count === 1 ? `Copy ${what}` : `Copy ${what} ${count} times`, edits)) closeAct()
  }
  return (
    <ActFrame
      title={`Copy ${countWords(things)} alongside`}
      deed={count === 1 ? 'Make the copy' : `Make ${count} copies`}
      why={why}
      onDo={() => void keep()}
    >
      <div class="pen-typed">
        <label>
          Copies
          <input
            type="text"
            inputMode="numeric"
            autocomplete="off"
            defaultValue="1"
            onInput={(event) =>
              setCount(/^\d+$/.test(event.currentTarget.value.trim()) ? Number(event.currentTarget.value) : 0)
            }
          />
        </label>
        <Exact label={places ? 'Apart' : 'Path between'} of="length" start={gapM ?? 0} least={-1e-9} take={setGap} />
      </div>
      <Choice
        label="Side"
        value={side === 1 ? 'right' : 'left'}
        onChange={(to) => setSide(to === 'right' ? 1 : -1)}
        options={[
          { value: 'left', words: `to the ${sides[1]}` },
          { value: 'right', words: `to the ${sides[0]}` },
        ]}
      />
      {rows !== null && rows.length > 0 && (
        <label class="tick">
          <input type="checkbox" checked={withRows} onChange={(event) => setWithRows(event.currentTarget.checked)} />
          {rows.length === 1 ? 'With its row' : `With the ${rows.length} rows`}
        </label>
      )}
      <p class="hint">What grows there is not copied.</p>
    </ActFrame>
  )
}

/** Names that are taken where a copy will be. */
function namesIn({ kind, record }: HeldThing): readonly string[] {
  const features = layers.value?.[kind].features ?? []
  return features.flatMap(({ properties }) =>
    'name' in properties &&
    typeof properties.name === 'string' &&
    (!('field' in properties) || properties.field === record.field)
      ? [properties.name]
      : [],
  )
}
