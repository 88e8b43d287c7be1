import type { LineString } from 'geojson'
import { useEffect, useMemo, useState } from 'preact/hooks'
import type { AnyRecord } from '../../../../geo/model/kind.ts'
import { areaM2, lineLengthM } from '../../../draw/measureShape.ts'
import { middleOf } from '../../../draw/ops/moved.ts'
import type { PlacedThing } from '../../../draw/session.ts'
import { geometryOf, isArea, type Shape } from '../../../draw/shape.ts'
import { areaFigure, landFigure, lengthFigure, told } from '../../show/figures.ts'
import { choose } from '../../state/chosen.ts'
import { closeAct } from '../../state/drawing.ts'
import { units } from '../../state/farm.ts'
import { keepEdits } from '../../state/keepEdits.ts'
import { newId } from '../../state/newId.ts'
import type { HeldThing } from '../../state/placed.ts'
import { recordsWith } from '../../state/riders.ts'
import { KIND_WORD } from '../formFields.ts'
import { ActFrame } from './ActFrame.tsx'
import { farmPlane, usePreview } from './onMap.ts'
import { type Dependents, splitEdits, splitInto } from './splitPlan.ts'
import { compassOf } from './thingWords.ts'

interface Standing extends Dependents {
  /** What belongs to the bed as a whole, counted. */
  readonly whole: readonly (readonly [string, number])[]
}

/** Divides a thing along a cut: which part stays the same, what the others are called, and where what stood in it goes. */
export function SplitPane({ thing, cut }: { readonly thing: HeldThing; readonly cut: LineString }) {
  const plane = farmPlane()
  const { kind, id, record } = thing
  const into = useMemo(() => splitInto(thing.geometry, cut, plane), [thing, cut])
  const { parts } = into
  const named = typeof record.name === 'string' && record.name !== ''
  const [keeper, setKeeper] = useState(0)
  const [names, setNames] = useState<readonly string[]>(() =>
    parts.slice(1).map((_, n) => `${String(record.name)}${String.fromCharCode(98 + n)}`),
  )
  const [cutPlantings, setCut] = useState(true)
  const [dressAll, setDressAll] = useState(true)
  const [standing, setStanding] = useState<Standing | null>(null)
  useEffect(() => {
    readStanding(kind, id).then(setStanding, () => setStanding(null))
  }, [thing])
  const shown: PlacedThing[] = parts.map((part, n) => {
    const geometry = geometryOf(part, plane)
    const outline = geometry.type === 'Polygon' && n !== keeper
    return { kind, id, geometry: outline ? { type: 'MultiLineString', coordinates: geometry.coordinates } : geometry }
  })
  usePreview(shown, false)

  const why =
    standing === null
      ? 'What stands in it could not be read yet.'
      : named && names.some((name) => name.trim() === '')
        ? 'Every part needs a name.'
        : null
  const keep = async () => {
    if (!standing) return
    const choices = { keeper, names: names.map((name) => name.trim()), cutPlantings, dressAll }
    const edits = splitEdits(kind, record, into, standing, { plane, newId, choices })
    if (!(await keepEdits(`Split ${KIND_WORD[kind]} in ${parts.length}`, edits))) return
    closeAct()
    void choose({ kind, id })
  }
  const title = named ? String(record.name) : `the ${KIND_WORD[kind]}`
  return (
    <ActFrame title={`Split ${title} in ${parts.length}`} deed="Split it" why={why} onDo={() => void keep()}>
      <fieldset class="act-choice">
        <legend>Which part stays {title}</legend>
        {parts.map((part, n) => (
          <label key={n} class="tick">
            <input type="radio" name="keeper" checked={keeper === n} onChange={() => setKeeper(n)} />
            {partWords(part, into.shape)}
          </label>
        ))}
      </fieldset>
      {named &&
        names.map((name, n) => (
          <label key={n} class="entry-line">
            Name of {names.length === 1 ? 'the other part' : `other part ${n + 1}`}
            <input
              type="text"
              autocomplete="off"
              value={name}
              onInput={(event) => setNames(names.with(n, event.currentTarget.value))}
            />
          </label>
        ))}
      {standing && <WhereItGoes kind={kind} standing={standing} />}
      {standing && standing.plantings.length > 0 && (
        <label class="tick">
          <input type="checkbox" checked={cutPlantings} onChange={(event) => setCut(event.currentTarget.checked)} />A
          planting across the cut becomes one in each part
        </label>
      )}
      {standing && standing.dressings.length > 0 && (
        <label class="tick">
          <input type="checkbox" checked={dressAll} onChange={(event) => setDressAll(event.currentTarget.checked)} />
          Dressings were put on every part
        </label>
      )}
    </ActFrame>
  )
}

function partWords(part: Shape, whole: Shape): string {
  const [a, b] = [middleOf(whole.parts.flat()), middleOf(part.parts.flat())]
  const size = isArea(part)
    ? told(areaM2(part) < 2000 ? areaFigure(areaM2(part), units.value) : landFigure(areaM2(part), units.value))
    : told(lengthFigure(lineLengthM(part.parts[0] ?? []), units.value))
  return `the part in the ${compassOf([b[0] - a[0], b[1] - a[1]])}, ${size}`
}

function WhereItGoes({ kind, standing }: { readonly kind: string; readonly standing: Standing }) {
  const lines = [
    ...(standing.beds.length > 0
      ? [`Each of its ${standing.beds.length} beds goes with the part that its middle lies in.`]
      : []),
    ...(standing.rows.length > 0
      ? [`Its ${standing.rows.length} rows are cut where the bed is; each piece goes with its part.`]
      : []),
    ...(standing.plantings.length > 0
      ? [
          `Its ${standing.plantings.length} plantings go where they stand; the picks of one that is cut stay with its longer piece.`,
        ]
      : []),
    ...standing.whole.map(
      ([words, count]) =>
        `${count} ${words} of the whole ${kind === 'rows' ? 'row' : 'bed'} stay${count === 1 ? 's' : ''} with the part that keeps the name.`,
    ),
  ]
  if (lines.length === 0) return <p class="hint">Nothing else stands in it.</p>
  return (
    <ul class="notes">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  )
}

async function readStanding(kind: string, id: string): Promise<Standing> {
  const none = { beds: [], rows: [], plantings: [], dressings: [], whole: [] }
  const counted = (words: readonly [string, string], records: readonly AnyRecord[]) =>
    records.length === 0 ? [] : [[words[records.length === 1 ? 0 : 1], records.length] as const]
  if (kind === 'fields') return { ...none, beds: await recordsWith('beds', 'field', [id]) }
  if (kind === 'rows') {
    const [plantings, lots] = await Promise.all([
      recordsWith('plantings', 'row', [id]),
      recordsWith('stock_lots', 'row', [id]),
    ])
    return { ...none, plantings, whole: counted(['stock lot', 'stock lots'], lots) }
  }
  if (kind !== 'beds') return none
  const [rows, loose, dressings, picks, lots] = await Promise.all([
    recordsWith('rows', 'bed', [id]),
    recordsWith('plantings', 'bed', [id]),
    recordsWith('dressings', 'bed', [id]),
    recordsWith('picks', 'bed', [id]),
    recordsWith('stock_lots', 'bed', [id]),
  ])
  const held = await recordsWith(
    'plantings',
    'row',
    rows.map((row) => row.id),
  )
  const plantings = [...new Map([...loose, ...held].map((planting) => [planting.id, planting])).values()]
  return {
    ...none,
    rows,
    plantings,
    dressings,
    whole: [...counted(['pick', 'picks'], picks), ...counted(['stock lot', 'stock lots'], lots)],
  }
}
