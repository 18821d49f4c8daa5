"""Hard words of patient handouts and what to write instead.

``GUIDE``: pairs named in the user's guide of the Patient Education Materials
Assessment Tool (PEMAT), AHRQ publication 14-0002-EF, 2013. ``TRADE``: jargon of
physiotherapy, common practice, no source. ``VAGUE``: instructions a patient
can't act on, common practice, no source. ``KNOWN``: words of three syllables and
more that patients of an exercise handout know, common practice, no source.

An entry is ``hard form, other form = plain words``; an empty right side leaves
the choice to the author. Forms are lower case and may be phrases.
"""

from __future__ import annotations

GUIDE = """
analgesic, analgesics = pain killer
physician, physicians = doctor
sufficient = enough
sufficiently = enough
inflammation = swelling
beneficial = helpful
utilize, utilise = use
utilizes, utilises = uses
utilizing, utilising = using
recur = come back
recurs = comes back
exacerbate = make worse
exacerbates = makes worse
exacerbated = made worse
febrile = feverish
facilitate = make easier
facilitates = makes easier
observe = watch
"""

TRADE = """
repetition, rep = time
repetitions, reps = times
unilateral, unilaterally = one-sided, or one side at a time
bilateral, bilaterally = both sides
contralateral = the other side
ipsilateral = the same side
prone = lying on your front
supine = lying on your back
side-lying, sidelying = lying on your side
quadruped = on hands and knees
long sitting, long-sitting = sitting with your legs straight in front
crook lying, hook lying = lying on your back with your knees bent
plinth = treatment couch
flex = bend
flexed = bent
flexion = bending
extend = straighten
extended = straight
extension = straightening
hyperextend = bend backwards too far
hyperextension = bending backwards too far
abduct = move out to the side
abduction = moving out to the side
adduct = move in towards the middle
adduction = moving in towards the middle
internal rotation, medial rotation = turning inwards
external rotation, lateral rotation = turning outwards
pronate = turn the palm down
pronation = turning the palm down, or rolling the foot in
supinate = turn the palm up
supination = turning the palm up, or rolling the foot out
dorsiflex = pull your foot up
dorsiflexion = pulling your foot up
plantarflex = point your foot down
plantarflexion, plantar flexion = pointing your foot down
inversion = turning the sole inwards
eversion = turning the sole outwards
circumduction = moving in a circle
protraction = reaching the shoulder blade forward
retraction = drawing back
concentric, concentrically = lifting, as the muscle shortens
eccentric, eccentrically = lowering slowly
isometric, isometrics, isometrically = hold still
plyometric, plyometrics = jumping and hopping
proprioception, proprioceptive = sense of position and balance
neuromuscular = nerve and muscle
mobilise, mobilize = move gently
mobilisation, mobilization = gentle movement
ambulate = walk
ambulation, gait = walking
weight-bearing, weightbearing, weight bearing = putting weight through the leg
non-weight-bearing, nwb = no weight through the leg
partial weight-bearing, pwb = some weight through the leg
range of motion, range of movement, rom = how far you can move
end range, end-range = as far as you can move
anterior = front
posterior = back
lateral = outer side
laterally = to the outside
medial = inner side
medially = to the inside
proximal = nearer the body
distal = further from the body
superior = upper
inferior = lower
cranial = towards the head
caudal = towards the feet
cervical spine = neck
thoracic spine = upper and middle back
lumbar spine = lower back
lower extremity, lower limb = leg
upper extremity, upper limb = arm
extremity = arm or leg
patella = kneecap
patellofemoral = kneecap
femur = thigh bone
tibia = shin bone
calcaneus = heel bone
scapula, scapulae = shoulder blade
scapular = shoulder blade
clavicle = collarbone
humerus = upper arm bone
gluteal, gluteals, glutes, gluteus = buttock muscles
quadriceps, quads = front thigh muscles
gastrocnemius, soleus = calf muscle
abdominals = tummy muscles
hallux = big toe
metatarsal, metatarsals = foot bone
tendinopathy, tendinitis, tendonitis = sore tendon
epicondylitis, epicondylalgia = sore elbow tendon
oedema, edema, effusion = swelling
haematoma, hematoma, contusion = bruise
fracture = broken bone
lesion = damaged area
instability = giving way
hypertrophy = bigger muscles
atrophy = muscle loss
paraesthesia, paresthesia = pins and needles
dyspnoea, dyspnea = shortness of breath
syncope = fainting
hypertension = high blood pressure
palpate = feel with your fingers
adjacent = next to
commence = start
cease, discontinue = stop
terminate = end
perform = do
performs = does
performed = done
performing = doing
maintain = keep
initiate = start
demonstrate = show
approximately = about
subsequently = then
subsequent = next
prior to = before
in order to = to
additional = more
frequently = often
immediately = at once
gradually = little by little
resistance = push, pull or weight
resistance band = exercise band
contraindicated = not safe for you
contraindication = reason not to do it
adverse = harmful
asymptomatic = without symptoms
symptomatic = painful
irritability = how easily it flares up
aggravate = make worse
aggravates = makes worse
alleviate = ease
alleviates = eases
modify = change
modification = change
regression = easier version
progression = harder version
cardiovascular = heart and lung
aerobic = steady, a little out of breath
submaximal = less than your hardest
maximal = your hardest
rpe = how hard it feels
1rm = the most you can lift once
doms = sore muscles the next days
adl, adls = daily tasks
"""

VAGUE = """
as tolerated = to a pain limit in numbers
to tolerance = to a pain limit in numbers
as able = how many, at least and at most
as needed = when, and how often at most
as required = when, and how often at most
as appropriate = when
as indicated = when
if appropriate = when
as directed = what to do
as comfortable = to a pain limit in numbers
several times = how many times
regularly = how often
periodically = how often
occasionally = how often
"""

KNOWN = """
abdomen ability activities activity afternoon already alternate animal another anyone
appointment appointments area areas arrival average banana bicycle bodyweight capital carefully
collarbone comfortable comfortably company completely computer condition continue december
different difficult difficulty direction easier easiest easily elastic electric emergency energy
every everyday everyone everything exactly exercise exercised exercises exercising family
favorite favourite february feverish finally general heavier heaviest holiday hospital however
idea ideas important improvement injury interval january medicine medicines natural naturally
nobody normally november october opposite ordinary original otherwise overhead particular period
periods photograph physio physiotherapist physiotherapy position positions possible probably
quietly recover recovering recovery regular remember saturday separate september seventy several
slippery somebody stabilise stationary steadily suddenly surgery telephone temperature therapy
together tomorrow trampoline triangle umbrella uncomfortable underneath understand unsteady
usual usually video videos whatever whenever yesterday
"""
