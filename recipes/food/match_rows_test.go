package food_test

// matchRow is an ingredient's name as a cook writes it, the food it means (USDA
// number) and whether that may be taken for sure.
type matchRow struct {
	name string
	code string
	sure bool
}

// matchRows are written as British and American recipes write them. What each
// means is common practice, no source; a doubtful one is marked so on purpose.
var matchRows = []matchRow{
	// eggs, milk, fat
	{"large free-range eggs", "01123", true}, {"eggs, beaten", "01123", true}, {"medium eggs", "01123", true},
	{"egg yolks", "01125", true}, {"egg whites, whisked", "01124", true},
	{"unsalted butter, softened", "01145", true}, {"butter (unsalted)", "01145", true}, {"salted butter", "01001", true},
	{"butter", "01001", false}, {"butter, melted", "01001", false}, {"ghee", "01003", true},
	{"whole milk", "01077", true}, {"full-fat milk", "01077", true}, {"milk", "01077", false}, {"skimmed milk", "01085", true},
	{"semi-skimmed milk", "01079", false}, {"buttermilk", "01088", true}, {"evaporated milk", "01096", true}, {"condensed milk", "01095", true},
	{"double cream", "01053", false}, {"heavy cream", "01053", true}, {"cream", "01053", false}, {"single cream", "01050", false},
	{"whipping cream", "01053", false}, {"soured cream", "01056", true}, {"crème fraîche", "01056", false}, {"half-and-half", "01049", true},
	{"natural yoghurt", "01116", false}, {"Greek yogurt", "01256", false}, {"full-fat Greek yogurt", "01293", true},
	// cheese
	{"mature cheddar cheese, grated", "01009", true}, {"sharp cheddar", "01009", true}, {"grated parmesan", "01033", false}, {"parmesan", "01033", false},
	{"gruyère", "01023", true}, {"feta cheese", "01019", true}, {"goat's cheese", "01159", true}, {"cream cheese", "01017", true},
	{"mascarpone", "01017", false}, {"mozzarella", "01026", false}, {"ricotta", "01036", false}, {"paneer", "01228", false}, {"halloumi", "01019", false},
	{"cottage cheese", "01012", false}, {"pecorino", "01038", true}, {"Stilton", "01004", false},
	// oils
	{"extra virgin olive oil", "04053", true}, {"olive oil", "04053", true}, {"rapeseed oil", "04582", true}, {"groundnut oil", "04042", true},
	{"vegetable oil", "04044", false}, {"oil", "04053", false}, {"sunflower oil", "04506", true}, {"toasted sesame oil", "04058", true}, {"lard", "04002", true},
	// meat
	{"boneless skinless chicken thighs", "05096", true}, {"chicken thighs", "05091", false}, {"skin-on chicken thighs", "05091", true},
	{"chicken breasts", "05062", false}, {"chicken breasts, skinless and boneless", "05062", true}, {"chicken breast fillets", "05062", true},
	{"chicken", "05062", false}, {"whole chicken", "05006", true}, {"minced beef", "23572", false}, {"ground beef", "23572", false}, {"mince", "23572", false},
	{"lean minced beef", "23562", false}, {"minced pork", "10219", false}, {"lamb mince", "17224", true}, {"turkey mince", "05305", false},
	{"streaky bacon rashers", "10123", true}, {"bacon", "10123", false}, {"back bacon", "10130", false}, {"pancetta", "10123", false}, {"gammon", "10150", false},
	{"sausages", "07063", false}, {"chorizo", "07019", true}, {"stewing beef", "23093", true}, {"sirloin steak", "23339", false}, {"lamb shoulder", "17035", true},
	{"pork tenderloin", "10060", true}, {"pork belly", "10005", true}, {"duck", "05139", false},
	// fish
	{"smoked haddock fillet", "15035", true}, {"cod fillets", "15015", true}, {"smoked salmon", "15077", true}, {"salmon fillets", "15236", false},
	{"prawns, peeled", "15270", true}, {"raw king prawns", "15270", true}, {"shrimp", "15270", true}, {"tinned tuna", "15121", false},
	{"white fish", "15066", false}, {"mussels", "15164", true}, {"anchovy fillets", "15002", true},
	// flour, sugar, baking
	{"plain flour", "20081", true}, {"all-purpose flour", "20081", true}, {"flour, sifted", "20081", true}, {"strong white bread flour", "20083", true},
	{"self-raising flour", "20082", true}, {"wholemeal flour", "20080", true}, {"cornflour", "20027", false}, {"corn flour", "20027", false}, {"cornstarch", "20027", true},
	{"caster sugar", "19335", true}, {"granulated sugar", "19335", true}, {"icing sugar, to dust", "19336", true}, {"light brown sugar", "19334", true},
	{"dark muscovado sugar", "19334", false}, {"demerara sugar", "19908", true}, {"honey", "19296", true}, {"golden syrup", "19350", false}, {"black treacle", "19304", false},
	{"baking powder", "18369", true}, {"bicarbonate of soda", "18372", true}, {"baking soda", "18372", true}, {"fast-action dried yeast", "18375", false},
	{"cocoa powder", "19165", true}, {"good-quality dark chocolate (70%)", "19904", true}, {"dark chocolate", "19904", false}, {"vanilla extract", "02050", true},
	{"gelatine leaves", "19177", true}, {"panko breadcrumbs", "18079", false}, {"fresh white breadcrumbs", "18069", true}, {"breadcrumbs", "18079", false},
	{"puff pastry", "18337", true}, {"filo pastry", "18338", true}, {"biscuits", "18173", false}, {"jelly", "19300", false}, {"pudding", "01225", false},
	// grains, pulses
	{"rice", "20044", false}, {"basmati rice", "20044", false}, {"arborio rice", "20050", false}, {"brown rice", "20036", true}, {"cooked rice", "20045", false},
	{"spaghetti", "20120", true}, {"dried pasta", "20120", true}, {"egg noodles", "20109", false}, {"rolled oats", "08120", true}, {"couscous", "20028", true},
	{"red lentils", "16144", true}, {"tinned chickpeas, drained", "16359", true}, {"chickpeas", "16359", false}, {"beans", "16145", false},
	{"canned black beans, rinsed and drained", "16018", false}, {"tofu", "16126", false}, {"firm tofu", "16126", true}, {"silken tofu", "16127", false},
	// vegetables
	{"onion", "11282", true}, {"red onion", "11282", true}, {"large yellow onions, finely chopped", "11282", true}, {"spring onions", "11291", true}, {"scallions", "11291", true},
	{"garlic cloves", "11215", true}, {"garlic, crushed", "11215", true}, {"fresh root ginger", "11216", true}, {"ginger", "11216", false},
	{"carrots, peeled and diced", "11124", true}, {"celery sticks", "11143", true}, {"leeks", "11246", true}, {"swede", "11435", true}, {"beetroot", "11080", true},
	{"courgettes", "11477", true}, {"zucchini", "11477", true}, {"aubergines", "11209", true}, {"eggplant", "11209", true}, {"rocket", "11959", true}, {"arugula", "11959", true},
	{"red bell peppers", "11821", true}, {"red pepper", "11821", true}, {"pepper", "02030", false}, {"mushrooms", "11260", false}, {"chestnut mushrooms", "11266", true},
	{"baby spinach", "11457", true}, {"frozen peas", "11312", true}, {"mangetout", "11300", true}, {"squash", "11485", false}, {"potatoes", "11352", true},
	{"tinned chopped tomatoes", "11531", true}, {"canned tomatoes", "11531", true}, {"tomatoes", "11529", true}, {"tomato purée", "11546", false}, {"tomato paste", "11546", true},
	{"passata", "11547", false}, {"savoy cabbage", "11114", true}, {"cavolo nero", "11233", false},
	// herbs, spices, seasoning
	{"freshly ground black pepper", "02030", true}, {"sea salt flakes", "02047", true}, {"salt", "02047", true}, {"bay leaves", "02004", true},
	{"fresh thyme", "02049", true}, {"dried thyme", "02042", true}, {"thyme", "02049", false}, {"thyme sprigs", "02049", true}, {"dried oregano", "02027", true},
	{"fresh coriander, chopped", "11165", true}, {"cilantro", "11165", true}, {"ground coriander", "02013", true}, {"coriander", "11165", false},
	{"flat-leaf parsley", "11297", true}, {"chili powder", "02009", false}, {"chilli powder", "02009", false}, {"cayenne pepper", "02031", true}, {"chilli flakes", "02031", false},
	{"ground cumin", "02014", true}, {"cloves", "02011", true}, {"nutmeg, freshly grated", "02025", true}, {"smoked paprika", "02028", true},
	// sauces, stock, drinks, fruit
	{"stock", "06194", false}, {"chicken stock", "06194", false}, {"vegetable stock", "06700", false}, {"dark soy sauce", "16123", false}, {"soy sauce", "16123", true},
	{"Dijon mustard", "02046", false}, {"red wine vinegar", "02068", true}, {"Worcestershire sauce", "06971", true}, {"dry white wine", "14106", true}, {"cider", "14003", false},
	{"lemon juice", "09152", true}, {"juice of 1 lime", "09160", true}, {"lemon zest", "09156", true}, {"sultanas", "09298", false}, {"raisins", "09298", true},
	{"flaked almonds", "12062", true}, {"ground almonds", "12062", true}, {"walnut pieces", "12155", true}, {"desiccated coconut", "12108", true}, {"coconut milk", "12118", true},
	{"water", "14429", true}, {"boiling water", "14429", true},
	// slips are found but never taken for sure
	{"parmasan cheese", "01033", false}, {"brocoli florets", "11090", false}, {"tumeric", "02043", false},
}
