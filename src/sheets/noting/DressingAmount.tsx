import { Chips } from '../../ui/Chips.tsx'
import { Choice } from '../../ui/Choice.tsx'
import { NumberEntry } from '../../ui/NumberEntry.tsx'
import { densityFigure, massFigure, told as sayFigure } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { amountOf, type NoteTold } from './noteTold.ts'

interface Props {
  readonly told: NoteTold
  readonly fault: string | undefined
  readonly onTell: (told: Partial<NoteTold>) => void
}

/** How much was put on, over the area or in all, each turned into the other; and whether it is raw manure. */
export function DressingAmount({ told, fault, onTell }: Props) {
  const area = measured.value?.beds.find(({ id }) => id === told.bed)?.area_m2 ?? null
  const kgPerM2 = amountOf(told, area, units.value)
  const us = units.value === 'us'
  const reckoned =
    typeof kgPerM2 === 'number' && area !== null
      ? told.amountIn === 'in all'
        ? `That is ${sayFigure(densityFigure(kgPerM2, units.value))} of the bed.`
        : `That is ${sayFigure(massFigure(kgPerM2 * area, units.value))} on the bed.`
      : undefined
  return (
    <>
      <div class="amount-entry">
        <NumberEntry
          label="How much"
          hint={reckoned}
          fault={fault}
          value={told.amount}
          onType={(text) => onTell({ amount: text })}
        />
        <Choice
          label="Told in"
          options={[
            { value: 'over the area', words: us ? 'lb/ft²' : 'kg/m²' },
            { value: 'in all', words: us ? 'lb in all' : 'kg in all' },
          ]}
          value={told.amountIn}
          onChange={(amountIn) => onTell({ amountIn })}
        />
      </div>
      <Chips
        label="Raw manure"
        options={[
          { value: 'yes', words: 'yes' },
          { value: 'no', words: 'no' },
        ]}
        chosen={told.rawManure === null ? [] : [told.rawManure ? 'yes' : 'no']}
        onTap={(tapped) => onTell({ rawManure: told.rawManure === (tapped === 'yes') ? null : tapped === 'yes' })}
      />
      {told.rawManure && (
        <p class="hint">Between raw manure and harvest an interval is kept: follow the local food-safety rule.</p>
      )}
    </>
  )
}
