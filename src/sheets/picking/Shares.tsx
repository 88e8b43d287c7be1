import { useState } from 'preact/hooks'
import { Chips } from '../../ui/Chips.tsx'
import { habits } from '../state/picking.ts'
import { entry, faults, tell } from './entry.ts'
import { readRemembered } from './remembered.ts'
import { evenly, leftOf, PARTS, type ShareLine, sayPart, sayShares, toggled } from './shareParts.ts'

/** What a share may be for (the words of the farm come first). */
const USES = ['kitchen', 'preserving', 'market', 'seed', 'neighbours', 'stock feed']
const SHOWN = 8

/** Who has the pick, in which parts and for what; what nobody has is told. */
export function Shares() {
  const lines = entry.value.shares
  const [other, setOther] = useState('')
  const left = leftOf(lines)
  const put = (shares: readonly ShareLine[]) => tell({ shares })
  const known = [...new Set([...lines.map(({ to }) => to), ...(habits.value?.receivers ?? [])])].slice(0, SHOWN)
  const uses = [...new Set([...(habits.value?.uses ?? []), ...USES])]
  const last = readRemembered().shares
  const add = () => {
    const to = other.trim()
    if (to === '') return
    if (!lines.some((line) => line.to === to)) put(toggled(lines, to, null))
    setOther('')
  }
  const change = (to: string, by: Partial<ShareLine>) =>
    put(lines.map((line) => (line.to === to ? { ...line, ...by } : line)))
  return (
    <div class="shares">
      <Chips
        label="Who has it"
        options={known.map((to) => ({ value: to, words: to }))}
        chosen={lines.map(({ to }) => to)}
        onTap={(to) => put(toggled(lines, to, null))}
      />
      <div class="share-deeds">
        {last.length > 0 && lines.length === 0 && (
          <button type="button" onClick={() => put(last)}>
            as last time: {sayShares(last)}
          </button>
        )}
        {lines.length > 1 && (
          <button type="button" onClick={() => put(evenly(lines))}>
            even parts
          </button>
        )}
      </div>
      <div class="share-other">
        <input
          type="text"
          autocomplete="off"
          aria-label="Somebody else who has some of it"
          placeholder="somebody else"
          value={other}
          onInput={(event) => setOther(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return
            event.preventDefault()
            add()
          }}
          onBlur={add}
        />
        <button type="button" onClick={add}>
          Add
        </button>
      </div>
      {lines.map((line) => (
        <div key={line.to} class="share-line">
          <span class="share-to">{line.to}</span>
          <select
            aria-label={`Part of ${line.to}`}
            value={String(line.part)}
            onChange={(event) => change(line.to, { part: Number(event.currentTarget.value) })}
          >
            {partsFor(line.part).map((part) => (
              <option key={part} value={String(part)}>
                {sayPart(part)}
              </option>
            ))}
          </select>
          <select
            aria-label={`What ${line.to} has it for`}
            value={line.use ?? ''}
            onChange={(event) =>
              change(line.to, { use: event.currentTarget.value === '' ? null : event.currentTarget.value })
            }
          >
            <option value="">for anything</option>
            {uses.map((use) => (
              <option key={use} value={use}>
                for {use}
              </option>
            ))}
          </select>
        </div>
      ))}
      {lines.length > 0 && left !== 0 && (
        <p class={left < 0 ? 'fault' : 'hint'}>
          {left < 0 ? `${sayPart(-left)} more than there is.` : `Not shared out: ${sayPart(left)}.`}
        </p>
      )}
      {faults.value.shares && (
        <p class="fault" role="alert">
          {faults.value.shares}
        </p>
      )}
    </div>
  )
}

const partsFor = (part: number) => {
  const known = PARTS.map(([one]) => one)
  return known.includes(part) ? known : [part, ...known]
}
