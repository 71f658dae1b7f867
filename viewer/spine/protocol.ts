import type { FeltVerdict } from '../../src/fit/feltRecord.ts';
import type { GrantedWish, LengthWish } from '../../src/job/changedLengths.ts';
import type { DonorObject } from '../../src/job/donorObject.ts';
import type { FitFacts } from '../../src/job/fitFacts.ts';
import type { PrintFacts } from '../../src/job/inspection/printFacts.ts';
import type { JobFacts } from '../../src/job/jobFacts.ts';
import type { LadderOptions } from '../../src/job/ladderGroup.ts';
import type { PlateKind } from '../../src/job/plateFiles.ts';
import type { Problem } from '../../src/job/problem.ts';
import type { AskedSheet } from '../../src/job/refitSheet.ts';
import type { JobFile } from '../../src/job/schema.ts';
import type { PartInTheRound } from '../../src/job/solidView.ts';
import type { NextSize } from '../../src/job/trial/changedSince.ts';
import type { TakenBack } from '../../src/job/trial/takenBack.ts';
import type { View } from '../../src/output/drawing/index.ts';
import type { FormPaper, ReadingForm } from '../../src/output/readingForm/index.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import type { FamilyLine, OpenedFile, Outcome, RefusedJob, ShownModel, SolidLines } from './answers.ts';
import type { CalibrationFacts } from './tasks/calibrate.ts';
import type { CouponFacts, FiledCoupon } from './tasks/coupon.ts';
import type { PrintAsked } from './tasks/inspect.ts';
import type { JudgedFacts, LadderFacts } from './tasks/ladder.ts';
import type { BedFacts } from './tasks/plate.ts';
import type { PlateAsked, RefusedPlate } from './tasks/plateJobs.ts';
import type { FiledTexts } from './tasks/printReadingsIn.ts';
import type { TakenFile, TakenKind } from './tasks/takeAway.ts';
import type { PageSaid, TrialTold } from './tasks/trial.ts';

/** What the worker does for the page. Every method takes plain data and gives plain data; one that throws has met an
 *  internal problem, for what is wrong with a job comes back as problems. One file a task in `tasks/`. */
export interface Spine {
  /** Answers as soon as the worker listens, before the kernel is loaded. */
  started(): Promise<true>;
  /** Runs the pipeline. */
  work(job: JobFile): Promise<Outcome>;
  /** What the form asks for and has; problems where that cannot be said. */
  facts(job: JobFile): Promise<JobFacts | RefusedJob>;
  /** The drawing that is the form, for a sheet of some width. */
  form(job: JobFile, paper: FormPaper): Promise<ReadingForm | RefusedJob>;
  /** How the part usually fits, what ladders say, how the machine moves. */
  fits(job: JobFile): Promise<FitFacts | RefusedJob>;
  /** Terms of use as an SPDX expression, spelt as the list has it; the problem where they are none. */
  licence(text: string): Promise<{ readonly licence: string } | Problem>;
  families(): Promise<readonly FamilyLine[]>;
  /** A job of that family with nothing read yet. Rejects for a family there is not. */
  newJob(family: string): Promise<JobFile>;
  /** A job, a printer profile or a bundle from its file; problems where it is none. */
  openFile(bytes: Uint8Array): Promise<OpenedFile | RefusedJob>;
  /** What the picture in the round shows beyond the scene: the print, its gaps to the machine, layers, motion, routes. */
  solidView(job: JobFile): Promise<readonly PartInTheRound[] | RefusedJob>;
  /** The same without a screen for it: lines of the part, and of the machine as far as the part does not hide it. */
  solidLines(part: Mesh, machine: readonly Mesh[], view: View): Promise<SolidLines>;
  /** Files of one kind to take away; `model` is the donor that the job refits, which goes into its bundle. */
  takeAway(job: JobFile, kind: TakenKind, model?: Uint8Array): Promise<readonly TakenFile[] | RefusedJob>;
  /** All copies of the job laid on the bed; refused with numbers where they do not fit. */
  bed(job: JobFile): Promise<BedFacts | RefusedJob>;
  /** Why each of other jobs cannot be printed along with one; nothing for those that can. */
  whyNotAlong(job: JobFile, others: readonly JobFile[]): Promise<readonly (readonly Problem[])[]>;
  /** Several jobs on one bed, at least `spacing` mm apart. */
  plate(jobs: readonly PlateAsked[], spacing?: number): Promise<BedFacts | RefusedPlate>;
  /** That plate as a file. */
  plateFiles(
    jobs: readonly PlateAsked[],
    kind: PlateKind,
    spacing?: number,
  ): Promise<readonly TakenFile[] | RefusedPlate>;
  /** The coupon of a printer as a form, its fields of some width and height, mm; refused where none can be drawn for it. */
  coupon(printer: PrinterProfile, field: readonly [number, number]): Promise<CouponFacts | RefusedJob>;
  couponFiles(printer: PrinterProfile): Promise<readonly TakenFile[] | RefusedJob>;
  /** Readings of a coupon in a file, as texts by feature, in the unit given or saying theirs. */
  couponReadings(
    printer: PrinterProfile,
    name: string,
    text: string,
    unit: 'mm' | 'in',
  ): Promise<FiledCoupon | RefusedJob>;
  /** What readings of the coupon, as typed, make of a printer, and of the job's chance; `date` YYYY-MM-DD. */
  calibrate(
    job: JobFile,
    printer: PrinterProfile,
    texts: Readonly<Record<string, readonly string[]>>,
    date: string,
  ): Promise<CalibrationFacts | RefusedJob>;
  /** Copies of an interface, or a group of them, in steps of clearance; `date` YYYY-MM-DD. */
  ladder(
    job: JobFile,
    name: string,
    options: LadderOptions & { readonly date: string },
  ): Promise<LadderFacts | RefusedJob>;
  /** What a verdict on a printed ladder comes to. */
  judgeLadder(job: JobFile, name: string, felt: FeltVerdict): Promise<JudgedFacts | RefusedJob>;
  /** What a model of a similar part is, before there is a job for it; problems where it cannot be used. */
  lookAtModel(name: string, bytes: Uint8Array): Promise<DonorObject | RefusedJob>;
  /** The sheet about the model of a job: where it can change, drawn along one of its axes. */
  modelSheet(job: JobFile, asked: Omit<AskedSheet, 'lengths'>): Promise<ShownModel | RefusedJob>;
  /** What the job says of its model once a wish about its lengths is granted. */
  changeLength(job: JobFile, wish: LengthWish): Promise<GrantedWish | RefusedJob>;
  /** What to read of the print on the bench, and what its readings say. */
  print(job: JobFile, asked: PrintAsked): Promise<PrintFacts | RefusedJob>;
  /** Readings of that print in a file, as texts by interface. */
  printReadings(
    job: JobFile,
    asked: PrintAsked,
    name: string,
    text: string,
  ): Promise<FiledTexts | RefusedJob>;
  /** The drawing of that print which is the form for it. */
  printForm(job: JobFile, asked: PrintAsked, paper: FormPaper): Promise<ReadingForm | RefusedJob>;
  /** What would stand on record of a print that was tried, and what it teaches; changes nothing. */
  trial(job: JobFile, asked: PrintAsked, said: PageSaid): Promise<TrialTold | RefusedJob>;
  /** How sizes have changed since the print of that place among the records, from 0, and why. */
  changesSince(job: JobFile, index: number): Promise<readonly NextSize[] | RefusedJob>;
  /** What was said of the last print, taken back; problems where something rests on it. */
  takeTrialBack(job: JobFile): Promise<TakenBack | RefusedJob>;
}
