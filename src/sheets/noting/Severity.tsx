import { Chips } from '../../ui/Chips.tsx'

const WORDS = ['slight', 'some', 'marked', 'bad', 'all of it'] as const

/** How bad it is, from 1 to 5; tapped again it is not told. */
export function Severity({
  value,
  onTell,
}: {
  readonly value: number | null
  readonly onTell: (value: number | null) => void
}) {
  return (
    <Chips
      label="How bad"
      options={WORDS.map((words, i) => ({ value: String(i + 1), words: `${i + 1} ${words}` }))}
      chosen={value === null ? [] : [String(value)]}
      onTap={(tapped) => onTell(tapped === String(value) ? null : Number(tapped))}
    />
  )
}
