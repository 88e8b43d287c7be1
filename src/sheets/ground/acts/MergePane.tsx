import { useEffect, useMemo, useState } from 'preact/hooks'
import { areaM2 } from '../../../draw/measureShape.ts'
import { geometryOf } from '../../../draw/shape.ts'
import { areaFigure, landFigure, lengthFigure, told } from '../../show/figures.ts'
import { choose } from '../../state/chosen.ts'
import { closeAct } from '../../state/drawing.ts'
import { units } from '../../state/farm.ts'
import { keepEdits } from '../../state/keepEdits.ts'
import type { HeldThing } from '../../state/placed.ts'
import { recordsWith } from '../../state/riders.ts'
import { KIND_WORD } from '../formFields.ts'
import { ActFrame } from './ActFrame.tsx'
import { joined, mergeEdits, referencesTo } from './mergePlan.ts'
import { farmPlane, usePreview } from './onMap.ts'

type Referring = Parameters<typeof mergeEdits>[3]

/** Makes one of several neighbours: which name stays, and what comes to belong to it. */
export function MergePane({ things }: { readonly things: readonly HeldThing[] }) {
  const plane = farmPlane()
  const kind = things[0]!.kind
  const [keeper, setKeeper] = useState(0)
  const [referring, setReferring] = useState<Referring | null>(null)
  const others = things.filter((_, n) => n !== keeper).map(({ id }) => id)
  useEffect(() => {
    setReferring(null)
    Promise.all(
      referencesTo(kind).map(async (reference) => ({
        reference,
        records: await recordsWith(reference.kind, reference.field, others),
      })),
    ).then(setReferring, () => setReferring(null))
  }, [things, keeper])
  const { shape, gapM } = useMemo(() => joined(things, plane), [things])
  usePreview([{ ...things[0]!, geometry: geometryOf(shape, plane) }], gapM !== null && kind !== 'fields')
  const why =
    gapM !== null && kind !== 'fields'
      ? `They don’t touch: ${told(lengthFigure(gapM, units.value))} lie between. Move or reshape them first.`
      : referring === null
        ? 'What stands in them could not be read yet.'
        : null
  const keep = async () => {
    if (!referring) return
    const word = KIND_WORD[kind]
    const edits = mergeEdits(things, keeper, shape, referring, plane)
    if (!(await keepEdits(`Merge ${things.length} ${kind === 'fields' ? 'fields' : `${word}s`}`, edits))) return
    const kept = things[keeper]!
    closeAct()
    void choose({ kind: kept.kind, id: kept.id })
  }
  const area = areaM2(shape)
  return (
    <ActFrame title={`Merge ${things.length} ${kind}`} deed="Merge them" why={why} onDo={() => void keep()}>
      <p class="act-figure">
        <span class="pen-value">
          {told(kind === 'fields' ? landFigure(area, units.value) : areaFigure(area, units.value))}
        </span>
        in one{gapM !== null && kind === 'fields' ? `, in parts ${told(lengthFigure(gapM, units.value))} apart` : ''}
      </p>
      <fieldset class="act-choice">
        <legend>Which stays, with its name and days</legend>
        {things.map(({ id, record }, n) => (
          <label key={id} class="tick">
            <input type="radio" name="keeper" checked={keeper === n} onChange={() => setKeeper(n)} />
            {String(record.name ?? record.kind ?? KIND_WORD[kind])}
          </label>
        ))}
      </fieldset>
      <BelongsNow referring={referring ?? []} />
    </ActFrame>
  )
}

const WORDS: Readonly<Record<string, readonly [string, string]>> = {
  stock_lots: ['stock lot', 'stock lots'],
}

/** What comes to belong to the one that stays. */
function BelongsNow({ referring }: { readonly referring: Referring }) {
  const some = referring.filter(({ records }) => records.length > 0)
  if (some.length === 0) return <p class="hint">Nothing else changes hands.</p>
  return (
    <>
      <p>These come to belong to it, unchanged:</p>
      <ul class="notes">
        {some.map(({ reference: { kind, field }, records }) => {
          const [one, many] = WORDS[kind] ?? [kind.replace(/s$/, ''), kind]
          return (
            <li key={`${kind} ${field}`}>
              {records.length} {records.length === 1 ? one : many}
            </li>
          )
        })}
      </ul>
    </>
  )
}
