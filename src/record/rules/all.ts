import { v16, v17, v18, v19, v29 } from './amounts.ts'
import { v22, v33, v34, v35, v36, v37 } from './customer.ts'
import { v9, v10, v11, v12, v13, v14, v15 } from './label.ts'
import { v40, v43, v48 } from './papers.ts'
import { v30, v31, v32 } from './people.ts'
import { v20, v21, v41 } from './place.ts'
import { v4, v5, v6, v7, v8, v44 } from './product.ts'
import type { RecordRule } from './rule.ts'
import { v23, v24, v25, v26 } from './weather.ts'
import { v1, v2, v3 } from './when.ts'
import { v27, v28, v38, v39, v46, v47 } from './work.ts'

/**
 * Every rule that looks at one record, in the order of their numbers. V42 (a kept record only changes by an amendment)
 * is kept by the amendments and the chain, V45 (numbers are repeated before saving) by whoever asks.
 */
export const recordRules: readonly RecordRule[] = [
  v1,
  v2,
  v3,
  v4,
  v5,
  v6,
  v7,
  v8,
  v9,
  v10,
  v11,
  v12,
  v13,
  v14,
  v15,
  v16,
  v17,
  v18,
  v19,
  v20,
  v21,
  v22,
  v23,
  v24,
  v25,
  v26,
  v27,
  v28,
  v29,
  v30,
  v31,
  v32,
  v33,
  v34,
  v35,
  v36,
  v37,
  v38,
  v39,
  v40,
  v41,
  v43,
  v44,
  v46,
  v47,
  v48,
]
