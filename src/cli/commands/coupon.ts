import { Command } from 'commander';

interface CouponOptions {
  readonly out: string;
  readonly json?: true;
}

/** `fettle coupon`: the print that tells how a printer prints, and the form for its readings. */
export const couponCommand = (): Command =>
  new Command('coupon')
    .summary('make the small print that tells how a printer prints')
    .description(
      'Draws the calibration print for one printer and writes its STL, a picture of it, and a form to print that says where to put the callipers',
    )
    .argument('<printer>', 'printer profile, as "fettle printer new" writes it')
    .option('--out <folder>', 'folder for the files; made when needed', 'out')
    .option('--json', 'print files, features and estimate as one JSON object')
    .addHelpText('after', '\nExit code: 0 made, 2 refused and nothing written')
    .action(async (path: string, { out, json }: CouponOptions) => {
      const { couponAction } = await import('../coupon/couponAction.ts');
      await couponAction(path, out, json ?? false);
    });
