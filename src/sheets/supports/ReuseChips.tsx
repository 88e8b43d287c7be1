import type { Support } from '../../../geo/model/supports.ts'
import { Chips } from '../../ui/Chips.tsx'
import { showCount } from '../show/figures.ts'

export type ReusePosts = NonNullable<Support['reuse_posts']>

interface Props {
  readonly chosen: ReusePosts
  readonly onTap: (value: ReusePosts) => void
  /** How many would serve, where it is known. */
  readonly wouldServe?: { readonly samePart: number; readonly anyPost: number }
}

/** Which posts that stand already may serve a run. */
export function ReuseChips({ chosen, onTap, wouldServe }: Props) {
  const many = (count: number | undefined) => (count === undefined ? '' : ` (${showCount(count)})`)
  return (
    <Chips
      label="Posts that stand already"
      options={[
        { value: 'same part', words: `serve if the same part${many(wouldServe?.samePart)}` },
        { value: 'any post', words: `any serves${many(wouldServe?.anyPost)}` },
        { value: 'none', words: 'all are set anew' },
      ]}
      chosen={[chosen]}
      onTap={(value) => onTap(value as ReusePosts)}
    />
  )
}
