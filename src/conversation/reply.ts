import { z } from 'zod'
import { Json } from './json.ts'
import { Text } from './text.ts'

export const Outcome = z.enum(['answer', 'heads-up', 'question', 'hold', 'refusal'])
export type Outcome = z.infer<typeof Outcome>

/** A named figure of the answer. `value` is a number or a text; names are stable and stand in the reference. */
export const Fact = z.strictObject({
  name: z.string(),
  value: z.union([z.string(), z.number(), z.boolean()]),
  unit: z.string().exactOptional(),
  text: Text.exactOptional(),
})
export type Fact = z.infer<typeof Fact>

/** What a press carries back to the command: the name of a step and plain data, never a function. */
export const Step = z.strictObject({ step: z.string(), value: Json.exactOptional() })
export type Step = z.infer<typeof Step>

/** A press that starts a command with its options filled in, as if somebody had typed it. */
export const Start = z.strictObject({
  command: z.string(),
  options: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()])),
})
export type Start = z.infer<typeof Start>

export const Choice = z.strictObject({
  label: Text,
  to: z.union([Step, Start]),
  /** May be pressed again and again; otherwise the first press closes the turn. */
  repeat: z.boolean().exactOptional(),
  /** Who may press it on a shared reply; by default only the person it answers. */
  who: z.enum(['owner', 'lead', 'crew']).exactOptional(),
  look: z.enum(['main', 'plain', 'stop']).exactOptional(),
  /** A short second line, shown where the messenger has room for it. */
  hint: Text.exactOptional(),
})
export type Choice = z.infer<typeof Choice>

/** The step to which a choice leads in its own command; null for one that starts another command. */
export function stepOf({ to }: Choice): Step | null {
  return 'command' in to ? null : to
}

export const Field = z.strictObject({
  name: z.string(),
  kind: z.enum(['text', 'long-text', 'choice', 'choices', 'file']),
  label: Text,
  hint: Text.exactOptional(),
  required: z.boolean(),
  value: z.string().exactOptional(),
  options: z.array(z.strictObject({ value: z.string(), label: Text })).exactOptional(),
  maxLength: z.number().int().exactOptional(),
})
export type Field = z.infer<typeof Field>

/** A short form of at most five fields. `to` names the step that receives what was filled in. */
export const Form = z.strictObject({
  title: Text,
  /** What the button says that opens it, where a messenger cannot show it at once: "Fill in", "Correct it". */
  open: Text,
  fields: z.array(Field).min(1).max(5),
  to: Step,
})
export type Form = z.infer<typeof Form>

/** Pictures and papers are named as data and drawn after the commit. */
export const Attachment = z.strictObject({
  name: z.string(),
  alt: Text,
  from: z.union([
    z.strictObject({ blob: z.string() }),
    z.strictObject({ picture: z.string(), data: Json }),
    z.strictObject({ paper: z.string(), data: Json }),
  ]),
})
export type Attachment = z.infer<typeof Attachment>

export const Reply = z.strictObject({
  outcome: Outcome,
  title: Text,
  /** What a crew member must read; the number first. */
  lines: z.array(Text),
  facts: z.array(Fact),
  /** Steps of the working, shown on demand. */
  working: z.array(Text),
  choices: z.array(Choice).max(25),
  form: Form.nullable(),
  files: z.array(Attachment),
  /** 'crew' shows in the channel, 'person' only to who asked. */
  audience: z.enum(['crew', 'person']),
  /** What this step is, for choosing safety lines: measuring, mixing, spraying ... */
  safety: z.strictObject({
    about: z.array(z.string()),
    /** Lines that come before any other, by id, and lines of the product's own label. */
    first: z.array(z.string()).exactOptional(),
    label: z.array(Text).exactOptional(),
    /** Ids of the lines shown, chosen by the desk. */
    chosen: z.array(z.string()).exactOptional(),
  }),
})
export type Reply = z.infer<typeof Reply>

export type ReplyParts = Partial<Omit<Reply, 'outcome' | 'title'>>

/** Builds a reply; whatever is not given is empty and seen by the crew. */
export function reply(outcome: Outcome, title: Text, parts: ReplyParts = {}): Reply {
  return {
    outcome,
    title,
    lines: [],
    facts: [],
    working: [],
    choices: [],
    form: null,
    files: [],
    audience: 'crew',
    safety: { about: ['general'] },
    ...parts,
  }
}
