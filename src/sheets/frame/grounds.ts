import { computed } from '@preact/signals'
import { sheet } from '../state/where.ts'
import { yieldGrounds } from '../yield/yieldGrounds.ts'

/** What the figures of the sheet rest on, for the title block; null where there is nothing to say. */
export const grounds = computed<string | null>(() => (sheet.value === 'yield' ? yieldGrounds.value : null))
