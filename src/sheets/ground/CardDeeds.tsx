import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import type { Card } from '../../desk/door.ts'
import type { EditGeometry } from '../../draw/session.ts'
import type { Thing } from '../../map/farmMap.ts'
import { chosen } from '../state/chosen.ts'
import { changeRecord, reshapeFault, takeUp } from '../state/drawing.ts'
import { startLaying } from '../state/laying.ts'
import { farmMap } from '../state/mapHandle.ts'
import { measured } from '../state/shown.ts'
import { type FormKind, KIND_WORD } from './formFields.ts'
import { Removal } from './Removal.tsx'

/** What can be done to a record from its card: find it on the map, reshape, change, remove. */
export function CardDeeds({ card, children }: { readonly card: Card; readonly children: ComponentChildren }) {
  const [removing, setRemoving] = useState(false)
  const kind = drawable(card.kind)
  const { geom } = card.record
  return (
    <>
      {reshapeFault.value && (
        <div class="fault" role="alert">
          <p>{reshapeFault.value.fault.detail}</p>
          {reshapeFault.value.again && (
            <button type="button" onClick={reshapeFault.value.again}>
              Keep it anyway
            </button>
          )}
        </div>
      )}
      <p class="deeds">
        {chosen.value && (
          <button type="button" onClick={() => find(chosen.value)}>
            Find<span class="unseen"> on the map</span>
          </button>
        )}
        {children}
        {kind && kind !== 'structures' && geom && (
          <button
            type="button"
            onClick={() => void takeUp({ do: 'edit', kind, id: card.id, geometry: geom as EditGeometry })}
          >
            Reshape
          </button>
        )}
        {kind === 'fields' && (
          <button type="button" onClick={() => startLaying({ do: 'beds', field: card.id })}>
            Lay out beds
          </button>
        )}
        {(kind === 'beds' || (kind === 'fields' && bedsIn(card.id).length > 0)) && (
          <button
            type="button"
            onClick={() => startLaying({ do: 'rows', beds: kind === 'beds' ? [card.id] : bedsIn(card.id) })}
          >
            Lay rows
          </button>
        )}
        {kind && (
          <>
            <button type="button" onClick={() => changeRecord(card, kind, `Change ${card.title}`)}>
              Change
            </button>
            <button type="button" onClick={() => setRemoving(true)}>
              Remove
            </button>
          </>
        )}
      </p>
      {kind && removing && <Removal card={card} word={KIND_WORD[kind]} onClose={() => setRemoving(false)} />}
    </>
  )
}

function find(thing: Thing | null): void {
  farmMap.value?.fitTo(thing)
}

function bedsIn(field: string): readonly string[] {
  return measured.value?.beds.filter((bed) => bed.field === field).map(({ id }) => id) ?? []
}

function drawable(kind: string): FormKind | null {
  return kind in KIND_WORD ? (kind as FormKind) : null
}
