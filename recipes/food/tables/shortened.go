package tables

import "strings"

// shortenedWords are the shortened words of the USDA's short descriptions with
// what they stand for: those that are the same wherever they stand, found by
// holding the short against the long descriptions of Release 26. Words that
// mean now one thing, now another (FR, RED, CH) are left as they are.
const shortenedWords = `
ckd cooked, ln lean, cnd canned, frz frozen, froz frozen, rstd roasted, bld boiled, bnless boneless, bnls boneless, bnl boneless, bnles boneless,
bnlss boneless, prep prepared, drnd drained, rnd round, choic choice, chc choice, frsh fresh, whl whole, imp imported, rte ready-to-eat,
choc chocolate, rst roast, chick chicken, chckn chicken, ckn chicken, skn skin, sel select, brsd braised, grds grades, grd grade,
bf beef, chs cheese, brld broiled, nz New_Zealand, juc juice, jucs juices, juics juices, unprep unprepared, unprp unprepared, veg vegetable,
sol solids, shldr shoulder, shdr shoulder, reg regular, stk steak, stks steaks, stek steak, crm cream, crmd creamed, lt light, pdr powder, var varieties,
cond condensed, inf infant, lo low, hi high, pln plain, sau sauce, vit vitamin, bev beverage, pk pack, drsng dressing, na sodium, ca calcium,
dom domestic, aus Australian, inst instant, swt sweet, sndwch sandwich, drk drink, mxd mixed, bkd baked, bns beans, flr flour, rts ready-to-serve,
enr enriched, unenr unenriched, str strained, grn green, grns greens, crl cereal, cal calorie, rtl retail, comp composite, yel yellow, cntr center,
swtnd sweetened, unswtnd unsweetened, swtnr sweetener, dk dark, ft fat, jr junior, pnut peanut, pnuts peanuts, htd heated, unhtd unheated, rehtd reheated,
cinn cinnamon, incl includes, inc includes, commly commercially, comm commercial, fort fortified, eq equal, shrt short, sp species, frstd frosted,
frstng frosting, bttm bottom, lofat lowfat, prot protein, conc concentrate, soln solution, appl apple, appls apples, applsauc applesauce,
chk chuck, chck chuck, sprd spread, rtf ready-to-feed, rtd ready-to-drink, rth ready-to-heat, rtb ready-to-bake, stwd stewed, ex extra,
grld grilled, grlld grilled, grild grilled, grilld grilled, gld grilled, lrg large, lg large, sml small, med medium, hvy heavy, btld bottled, nat natural,
tstd toasted, tstr toaster, liq liquid, dssrt dessert, spl special, drumstk drumstick, nutr nutrition, brkfst breakfast, krnls kernels, cocnt coconut,
immat immature, hydr hydrogenated, hydrog hydrogenated, refr refrigerated, flav flavored, sd seed, simmrd simmered, past pasteurized, fd food, fds foods,
bttrmlk buttermilk, soybn soybean, condmnt condiment, cndmnt condiment, chopd chopped, cmdty commodity, rw raw, smmr summer,
wntr winter, mayo mayonnaise, todd toddler, unckd uncooked, sirl sirloin, sirln sirloin, srln sirloin, recon reconstituted, mshd mashed, bne bone, dehyd dehydrated, stmd steamed,
prtrhs porterhouse, tp top, und under, undr under, proc processed, ital Italian, shk shank, shnk shank, pnappl pineapple, brd bread, brdd breaded,
cttnsd cottonseed, asprt aspartame, bsd based, coatd coated, imitn imitation, pudd pudding, formu formula, approx approximately, brst breast,
marshmllw marshmallow, prop propionate, brding breading, brdng breading, skrt skirt, blde blade, mrb marble, scr score, brn brown, brwn brown,
eng English, unspec unspecified, indus industrial, chnky chunky, cntry country, chps chops, slce slice, micro microwave, undil undiluted,
dil diluted, brl broil, parbld parboiled, precked precooked, preckd precooked, evap evaporated, sgr sugar, frt fruit, std standard, supp supplement, snk snack, yng young, orig original,
bstn Boston, scallpd scalloped, replcmnt replacement, frnched frenched, dnuded denuded, tndr tender, tndrln tenderloin, tnderln tenderloin, insde inside, otsde outside, sknls skinless,
sknlss skinless, grlic garlic, trky turkey, dbl double, rmvd removed, pep pepper, pstrs pastries, scrmbld scrambled, decort decorticated,
babyfd babyfood, duckl duckling, fryrs fryers, grvy gravy, mushrm mushroom, sausge sausage, mcrwveable microwaveable, prdct product, crnkl crinkle,
purch purchased, prch purchased, marg margarine, frnch French, frch French, whtnr whitener, brgr burger, chmp chump, trts tarts, fudg fudge, mx mix,
chseburger cheeseburger, crst crust, paty patty, ptty patty, ssage sausage, cld clod, plte plate, h2o water, xcpt except, spag spaghetti,
lemn lemon, van vanilla, wht white, blk black, org organic, hmde homemade, broilr broilers, bar-b-q barbecue, ckng cooking`

// shortened is shortenedWords by the shortened word.
var shortened = func() map[string]string {
	out := make(map[string]string, 320)
	for pair := range strings.SplitSeq(shortenedWords, ",") {
		short, long, _ := strings.Cut(strings.TrimSpace(pair), " ")
		out[short] = strings.ToLower(strings.ReplaceAll(long, "_", " "))
	}
	return out
}()
