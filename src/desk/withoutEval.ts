import { config } from 'zod'

// The page's policy lets no program be made of text. Zod would try once, and the browser reads the worker's whole program
// again to say where that was.
config({ jitless: true })
