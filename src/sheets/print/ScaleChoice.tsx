import { useState } from 'preact/hooks'
import { Entry } from '../../ui/Entry.tsx'

interface Props {
  readonly scales: readonly number[]
  /** N of 1:N; null for the largest that fits. */
  readonly scale: number | null
  /** Which that is, once it is known. */
  readonly fits: number | null
  readonly wordsOf: (scale: number) => string | null
  readonly onChange: (scale: number | null) => void
}

const [LEAST, MOST] = [10, 1_000_000]

/** The scale: the largest standard one that fits, one from the list, or one that is typed. */
export function ScaleChoice({ scales, scale, fits, wordsOf, onChange }: Props) {
  const [typing, setTyping] = useState(scale !== null && !scales.includes(scale))
  const [fault, setFault] = useState<string | null>(null)
  const told = typing ? 'other' : scale === null ? 'fits' : String(scale)
  const shown = (n: number) => [`1:${n}`, wordsOf(n)].filter(Boolean).join(', ')
  return (
    <>
      <Entry label="Scale">
        {(names) => (
          <select
            {...names}
            value={told}
            onChange={({ currentTarget: { value } }) => {
              setTyping(value === 'other')
              setFault(null)
              if (value !== 'other') onChange(value === 'fits' ? null : Number(value))
            }}
          >
            <option value="fits">
              Largest that fits one page{scale === null && fits !== null ? ` (1:${fits})` : ''}
            </option>
            {scales.map((n) => (
              <option key={n} value={n}>
                {shown(n)}
              </option>
            ))}
            <option value="other">Another</option>
          </select>
        )}
      </Entry>
      {typing && (
        <Entry label="Scale, 1 to" fault={fault}>
          {(names) => (
            <input
              {...names}
              type="text"
              inputMode="numeric"
              value={scale ?? ''}
              onChange={({ currentTarget: { value } }) => {
                const n = Number(value.replace(/^\s*1\s*:/, '').replace(/[\s.,’']/g, ''))
                const sound = Number.isInteger(n) && n >= LEAST && n <= MOST
                setFault(sound ? null : `A whole number from ${LEAST} to ${MOST}, such as 400 for 1:400.`)
                if (sound) onChange(n)
              }}
            />
          )}
        </Entry>
      )}
    </>
  )
}
