import { z } from 'zod'

const Share = z.number().min(0).max(1)

/** Every threshold of the key. The reasons stand beside the defaults below and in docs/key.md. */
export const Settings = z.strictObject({
  ownPrior: Share,
  commonWeight: z.number().min(1),
  noveltyPrior: Share,
  noveltyChange: z.number().min(0),
  nearMistakes: Share,
  memoryDoubt: Share,
  noSuchPart: Share,
  nameShare: Share,
  nameOverNovel: z.number().positive(),
  guardOdds: z.number().positive(),
  decisiveOdds: z.number().min(1),
  ownShare: Share,
  ownOverOthers: z.number().positive(),
  noneFitsShare: Share,
  stillPossibleRatio: z.number().positive(),
  confirmedPower: z.number().min(1),
  againWorth: z.number().min(0),
  hallmarkPower: z.number().min(0).max(1),
  familyPower: z.number().min(0).max(1),
  turfWorth: z.number().min(0),
  effortPower: z.number().min(0),
  minWorth: z.number().min(0),
  gainPerQuestion: z.number().positive(),
  gainWithoutHead: z.number().positive(),
  maxQuestions: z.int().positive(),
})
export type Settings = z.infer<typeof Settings>

export const DEFAULT_SETTINGS: Settings = {
  /** A patch that a crew asks about is the lawn's own grass about one time in three: judgement, no source. */
  ownPrior: 0.3,
  /** Each of the twenty commonest weeds is expected this many times as often as another plant. */
  commonWeight: 2.6,
  /** One plant in eight is none of those in the data: judgement, no source. */
  noveltyPrior: 0.12,
  /** A plant that is not in the data differs from its nearest relative here this many times as often as ours do. */
  noveltyChange: 1.2,
  /** Mistakes mostly go to a state that looks alike; the rest go anywhere. */
  nearMistakes: 0.75,
  /** How far a cell from memory is pulled towards "anything its plant group may show". */
  memoryDoubt: 0.2,
  /** How often a part that a plant does not have is reported as missing rather than guessed at. */
  noSuchPart: 0.7,
  /** A name is given when it holds this share of the probability of all plants in the data. */
  nameShare: 0.92,
  /** ... and outweighs a relative that is not in the data by this factor. */
  nameOverNovel: 5.6,
  /** The name must be this many times as probable as each turf that could be here. */
  guardOdds: 200,
  /** ... and as many times again where a single decisive character speaks against the turf: one slip flips it. */
  decisiveOdds: 5,
  /** The lawn's own grass is recognized at this share of the whole probability: to spare it wrongly costs a visit. */
  ownShare: 0.9,
  /** The own grass must explain the answers this many times better than any other plant, whatever was expected. */
  ownOverOthers: 3,
  /** "None of these fits" once it is more likely than not that the plant is not in the data. */
  noneFitsShare: 0.5,
  /** A plant is still possible while the best one explains the answers at most this many times better. */
  stillPossibleRatio: 150,
  /** A second look that agrees is worth half an answer more: the same person errs the same way again. */
  confirmedPower: 1.3,
  /** ... so asking for one is worth less than asking something new. */
  againWorth: 0.7,
  /** Tempers a hallmark to about ten times for a plant that has it; published keys treat one as nearly enough. */
  hallmarkPower: 0.6,
  /** Answers whose mistakes go together count n^(1 - familyPower), not n. */
  familyPower: 0.15,
  /** What a step away from a turf is worth beside a step towards the name, both in natural units of information. */
  turfWorth: 0.35,
  /** Worth is divided by effort to this power: higher asks easier questions and more of them. */
  effortPower: 0.3,
  /** Below this a question is not worth a look. */
  minWorth: 0.004,
  /** Log odds that a good answer gives: a walk ends when more is missing than the questions left can give. */
  gainPerQuestion: 1.7,
  /** ... and the same where head or flower is gone: what is left tells less, and the head will decide in a few weeks. */
  gainWithoutHead: 0.88,
  /** Patience of a crew at a patch: judgement; few walks that are still open then are ever decided. */
  maxQuestions: 13,
}
