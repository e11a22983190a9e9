"""What is cut, ordered, welded and stood up, of plants of our own making, worked
out a second time: from the geometry and the tables of the catalogue alone, with
nothing of the Go code. Writes plants.json beside it.

    python3 make_plants.py

The sizes of parts are those of catalog/table; lengths that no table gives are the
catalogue's own working assumptions, which a plant checks the use of and not the
truth. Dished ends: crown and knuckle as parts of the bore, as package vessel has
it. Buckling: Euler, and EN 1993-1-4:2006 5.4.2 for a hollow section, from memory.
Python 3, standard library only."""
import csv, json, math, os, re, itertools, collections
HERE = os.path.dirname(os.path.abspath(__file__))
T = os.path.join(HERE, '..', '..', 'catalog', 'table')
def rows(n):
    return list(csv.DictReader(open(f'{T}/{n}.csv',encoding='utf-8')))
TUBE={r['tube']:r for r in rows('tubes')}
JOINTS=rows('joints'); FAM={r['family']:r for r in rows('families')}
BENDS=rows('bends'); TEES=rows('tees'); BODIES={r['body']:r for r in rows('bodies')}
HALVES={}
for r in rows('halves'): HALVES.setdefault(r['family'],[]).append(r['half'])
VULG={'½':.5,'¼':.25,'¾':.75,'⅛':.125,'⅜':.375,'⅝':.625,'⅞':.875}
def L(s,default=None):
    """length in mm"""
    if s in (None,''): return default
    s=s.strip().replace('−','-')
    if '"' in s or "'" in s:
        m=re.fullmatch(r"(?:(\d+)'\s*)?(?:(\d+)?\s*(?:(\d+)/(\d+))?\")?",s)
        ft,i,a,b=m.groups(); return (int(ft or 0)*12+int(i or 0)+(int(a)/int(b) if a else 0))*25.4
    m=re.fullmatch(r'(-?[\d.]+)?\s*(?:(\d+)/(\d+))?\s*(mm|cm|m|in|ft)',s)
    v=float(m[1] or 0)+(int(m[2])/int(m[3]) if m[2] else 0)
    return v*{'mm':1,'cm':10,'m':1000,'in':25.4,'ft':304.8}[m[4]]
def ANG(s,default=0):
    if not s: return math.radians(default)
    return math.radians(float(s.replace('°','').strip()))
def SL(s):
    if not s: return None
    s=s.strip()
    if s=='level': return 0.
    if s.startswith('1:'): return 1/float(s[2:])
    if s.endswith('%'): return float(s[:-1])/100
    if s=='1/8 in/ft': return 1/96
    if s.endswith('mm/m'): return float(s[:-4])/1000
    raise ValueError(s)
def add(a,b): return tuple(x+y for x,y in zip(a,b))
def mul(a,k): return tuple(x*k for x in a)
def sub(a,b): return add(a,mul(b,-1))
def dot(a,b): return sum(x*y for x,y in zip(a,b))
def cross(a,b): return (a[1]*b[2]-a[2]*b[1],a[2]*b[0]-a[0]*b[2],a[0]*b[1]-a[1]*b[0])
def norm(a): return math.sqrt(dot(a,a))
def unit(a):
    n=norm(a); return mul(a,1/n) if n else a
def od(t): return float(TUBE[t]['od'])
def wall(t): return float(TUBE[t]['wall'])
def bore(t): return od(t)-2*wall(t)
def jrow(end,t):
    if not end or end=='weld': return None
    f=end.split('/')[0]
    for r in JOINTS:
        if r['joint'].split('/')[0]==f and t in r['tubes'].split(): return r
    raise KeyError((end,t))
class Plant:
    def __init__(s,d,z=None):
        s.d=d; s.meas={m['part']:L(m['length']) for m in d.get('measured',[])}
        s.bends={}; s.pieces=[]; s.joints=[]  # joints: (upEnd,upTube,downEnd,downTube,where,dir,ref)
        s.fits=[]
        t=d['tank']; o=t['outlet']
        s.side=o.get('place')=='side'
        s.stub=L(o.get('stub'),40.)
        s.size=o['size']; s.oend=o.get('end','weld')
        s.bore=L(t['bore']); s.h=L(t['height']); s.w=L(t.get('wall'),2.)
        s.z=z if z is not None else L(d.get('stand',{}).get('height'))
        s.lay()
    def half(s,end,t):
        r=jrow(end,t)
        if r is None: return 0.
        f=end.split('/')
        if f[1]=='hose' : return 0.
        return s.meas.get(f"{r['joint']}/{f[1]}/length",float(r['length']))
    def gap(s,ue,ut,de,dt):
        a,b=jrow(ue,ut),jrow(de,dt)
        if not a or not b: return 0.
        fa,fb=ue.split('/')[0],de.split('/')[0]
        if fa!=fb: return 0.
        if a['face']!=b['face']: return 0.
        return s.meas.get(a['joint']+'/gap',float(FAM[fa]['gap']))
    def steep(s,d): return abs(d[2])>math.sin(math.radians(60))+1e-9
    def toward(s,d,turn):
        ref=(1,0,0) if s.steep(d) else (0,0,1)
        e=unit(sub(ref,mul(d,dot(ref,d))))
        # clockwise looking along d: from e rotate about d by +turn (right-hand rule about the direction looked along is clockwise)
        r=cross(d,e)
        return unit(add(mul(e,math.cos(turn)),mul(r,math.sin(turn))))
    def bend(s,t,shape,deg,):
        rs=[r for r in BENDS if r['tube']==t]
        slug=f"{t}/bend/{deg:g}"
        if rs:
            r=next((r for r in rs if r['shape']==(shape or r['shape'])))
            at90=float(r['at90']); R=float(r['radius']) if r['radius'] else min(1.5*od(t),at90)
            if r['shape']: slug+='/'+r['shape']
            if deg==90: a=at90
            elif deg==45 and r['at45']: a=float(r['at45'])
            else: a=R*math.tan(math.radians(deg)/2)+(at90-R)
        else:
            R=1.5*od(t); a=R*math.tan(math.radians(deg)/2)
        a=s.meas.get(slug+'/centre-to-end',a)
        R=min(R,a/math.tan(math.radians(deg)/2))
        return slug,R,a
    def tee(s,t,kind,shape=None):
        rs=[r for r in TEES if r['tube']==t]
        if kind in('tee','cross'):
            if rs:
                r=rs[0]; ln=float(r['length']); slug=t+'/tee'+('/'+r['shape'] if r['shape'] else '')
            else: ln=1.5*od(t); slug=t+'/tee'
            if kind=='cross': slug=t+'/cross'
            run=br=ln
        elif kind=='seat-valve': run=br=1.5*od(t); slug=t+'/'+kind
        else: run=od(t); br=od(t)/2+30; slug=t+'/'+kind
        return slug,s.meas.get(slug+'/run',run),s.meas.get(slug+'/branch',br)
    def walk(s,pieces,prefix,at,d,uend,utube):
        for i,p in enumerate(pieces):
            ref=f'{prefix}.{i}'; k=p['kind']
            t=p.get('size') or utube; t2=p.get('to') or t if k=='reducer' else t
            ie,oe=p.get('in','weld'),p.get('out','weld')
            g=s.gap(uend,utube,ie,t)
            s.joints.append(dict(ref=ref,up=(uend,utube),down=(ie,t),at=at,dir=d,gap=g))
            at=add(at,mul(d,g))
            f=SL(p.get('fall')) if k=='straight' else None
            spring=0
            if f is not None and not s.steep(d):
                pl=unit((d[0],d[1],0)); nd=unit((pl[0],pl[1],-f)); spring=math.acos(max(-1,min(1,dot(nd,d)))); d=nd
            a,b=s.half(ie,t),s.half(oe,t2)
            q=dict(ref=ref,kind=k,p=p,t=t,t2=t2,ie=ie,oe=oe,frm=at,d0=d,spring=spring,cut=0.,third=[])
            if k=='straight':
                q['cut']=L(p.get('length'),0.) if not p.get('fit') else 0.
                ln=a+q['cut']+b; at=add(at,mul(d,ln)); q['len']=ln
                if p.get('fit'): s.cur.append(q)
            elif k=='bend':
                deg=float((p.get('angle') or '90').replace('°',''))
                q['slug'],R,ce=s.bend(t,p.get('shape'),deg); th=math.radians(deg)
                side=s.toward(d,ANG(p.get('turn')))
                nd=unit(add(mul(d,math.cos(th)),mul(side,math.sin(th))))
                c=add(at,mul(d,a+ce)); q['corner']=c; at=add(c,mul(nd,ce+b))
                q['len']=a+b+2*(ce-R*math.tan(th/2))+R*th
                q['arc']=(R,th,add(c,mul(d,-R*math.tan(th/2))),side,d); d=nd
            elif k=='reducer':
                big,small=(t,t2) if od(t)>=od(t2) else (t2,t)
                ln=max(30,3*(od(big)-od(small)))
                if big.startswith('asme-bpe') and small.startswith('asme-bpe'): ln+=2*38.1
                sm=small.split('/')[1] if big.split('/')[0]==small.split('/')[0] else small
                q['slug']=f"{big}/reducer/{sm}/{p.get('shape') or 'concentric'}"
                ln=L(p.get('length'),s.meas.get(q['slug']+'/length',ln))
                at=add(at,mul(d,a+ln+b)); q['len']=a+ln+b
                if p.get('shape')=='eccentric':
                    at=add(at,mul(s.toward(d,ANG(p.get('turn'))),(bore(t)-bore(t2))/2))
            elif k in BODIES:
                q['slug']=t+'/'+k
                r=BODIES[k]; en=lambda e: 0 if jrow(e,t) is None else float(jrow(e,t)['length'])
                ln=L(p.get('length'),float(r['base'])+float(r['perod'])*od(t)+en(ie)+en(oe))  # over its ends, as bought
                at=add(at,mul(d,ln)); q['len']=ln
            elif k=='device':
                a=b=0; ln=L(p.get('length'),0.); at=add(at,mul(d,ln)); q['len']=ln
            elif k in('tee','cross','thermometer-pocket','sample-cock','seat-valve'):
                q['slug'],run,br=s.tee(t,k,p.get('shape'))
                side=s.toward(d,ANG(p.get('turn')))
                c=add(at,mul(d,a+run)); q['corner']=c
                if k=='seat-valve' or k=='tee' and p.get('shape')=='branch':
                    at=add(c,mul(side,br+b)); q['len']=a+run+br+b
                    if k=='tee': q['third']=[(add(c,mul(d,run)),d)]
                    d=side
                else:
                    at=add(c,mul(d,run+b)); q['len']=a+2*run+b
                    q['third']=[(add(c,mul(side,br)),side)]
                    if k=='cross': q['third'].append((add(c,mul(side,-br)),mul(side,-1)))
            elif k=='hose':
                a=b=0; ln=L(p.get('length'),0.); at=add(at,mul(d,ln)); q['len']=ln
            elif k=='cap': q['len']=0
            q['to'],q['d1']=at,d
            s.pieces.append(q); uend,utube=oe,t2
        return at,d,uend,utube
    def lay(s):
        d=s.d
        def run(fitlens):
            s.pieces=[];s.joints=[]
            return
        z=s.z or 0.
        if s.side:
            fl=SL(d['tank']['outlet'].get('fall')) or 0.
            D=unit((1,0,-fl)); s.o=(s.bore/2+s.stub*(D[0] if False else 1),0,z)
        else: D=(0,0,-1); s.o=(0,0,z)
        s.odir=D
        pu=d.get('pump',{}); s.gravity=pu.get('kind')=='none'
        s.pieces=[]; s.joints=[]; s.cur=[]
        at,dd,ue,ut=s.walk(d.get('under',[]),'under',s.o,D,s.oend,s.size)
        at,dd,ue,ut=s.walk(d.get('run',[]),'run',at,dd,ue,ut)
        dl=d.get('delivery',{})
        if s.gravity:
            at,dd,ue,ut=s.walk(dl.get('pieces',[]),'delivery.pieces',at,dd,ue,ut)
            s.fit(at,dd,dl,0,None)
            return
        f=ANG(pu.get('faces'));
        into=(math.cos(f),math.sin(f),0)
        # inlet faces "towards the tank" at 0: its face looks to -x, so the flow enters along +x, turned counter-clockwise with it
        s.pin=(L(pu.get('away'),0.),L(pu.get('aside'),0.),L(pu.get('height'),0.))
        g=s.gap(ue,ut,pu.get('inEnd','weld'),pu['inSize'])
        s.joints.append(dict(ref='pump',up=(ue,ut),down=(pu.get('inEnd','weld'),pu['inSize']),at=at,dir=dd,gap=g))
        tgt=sub(s.pin,mul(into,g))
        s.solve(tgt,(1,1,1),at)
        # delivery
        po=add(add(s.pin,mul(into,L(pu.get('outAhead'),0.))),(0,0,L(pu.get('outUp'),0.)))
        s.pout=po; n=len(s.pieces); s.cur=[]
        at,dd,ue,ut=s.walk(dl.get('pieces',[]),'delivery.pieces',po,(0,0,1),pu.get('outEnd') or pu.get('inEnd','weld'),pu.get('outSize') or pu['inSize'])
        s.fit(at,dd,dl,n,None)
    def fit(s,at,dd,dl,n,_):
        t=(L(dl.get('away'),None),L(dl.get('aside'),None),L(dl.get('height'),None))
        mask=tuple(0 if x is None else 1 for x in t)
        s.solve(tuple(x or 0 for x in t),mask,at)
    def solve(s,tgt,mask,at):
        """least squares, least norm, not under zero: tries active sets (all subsets), keeps the best"""
        F=s.cur; 
        if any(p['kind']=='hose' and p['p'].get('fit') for p in s.pieces): pass
        import itertools
        rows=[i for i in range(3) if mask[i]]
        miss=[tgt[i]-at[i] for i in rows]
        A=[[f['d0'][i] for f in F] for i in rows]
        best=None
        for r in range(len(F),-1,-1):
            for sub_ in itertools.combinations(range(len(F)),r):
                x=lstsq([[row[j] for j in sub_] for row in A],miss) if r else []
                if any(v<-1e-9 for v in x): continue
                full=[0]*len(F)
                for j,v in zip(sub_,x): full[j]=max(v,0)
                res=math.sqrt(sum((m-sum(a*b for a,b in zip(row,full)))**2 for m,row in zip(miss,A)))
                key=(round(res,7),round(sum(v*v for v in full),4))
                if best is None or key<best[0]: best=(key,full)
        x=best[1] if best else []
        s.miss=best[0][0] if best else (math.sqrt(sum(m*m for m in miss)))
        order=[p['ref'] for p in s.pieces]
        for f,v in zip(F,x):
            f['cut']+=v; f['len']+=v
            sh=mul(f['d0'],v); i=order.index(f['ref'])
            f['to']=add(f['to'],sh)
            for p in s.pieces[i+1:]:
                for k in('frm','to','corner'):
                    if k in p: p[k]=add(p[k],sh)
                p['third']=[(add(a,sh),b) for a,b in p['third']]
                if 'arc' in p: R,th,st,si,dr=p['arc']; p['arc']=(R,th,add(st,sh),si,dr)
            for j in s.joints:
                if j['ref']=='pump' or j['ref'] in order and order.index(j['ref'])>i: j['at']=add(j['at'],sh)
    # ---- outside radius of what closes a joint (only what a table gives)
    def rim(s,j):
        """outside radius at a joint: flange rim or nut where the catalogue has it; else tube"""
        r=max(od(j['up'][1]),od(j['down'][1]))/2
        for e,t in (j['up'],j['down']):
            row=jrow(e,t)
            if not row: continue
            if row['face'].startswith('flange '): r=max(r,float(row['face'][7:])/2+10)
            elif row['nut']: r=max(r,float(row['nut'])/2)
            else: r=max(r,od(t)/2+25)
        return r
    def hang(s,d,r): return r*math.sqrt(max(0,1-d[2]**2))
    def lowest_tube(s,refs):
        z=1e9
        for p in s.pieces:
            if not p['ref'].startswith(refs): continue
            for e,d,t in ((p['frm'],p['d0'],p['t']),(p['to'],p['d1'],p['t2'])): z=min(z,e[2]-s.hang(d,od(t)/2))
            if 'arc' in p:
                R,th,st,side,dr=p['arc']
                for i in range(2001):
                    a=th*i/2000; pt=add(st,add(mul(dr,R*math.sin(a)),mul(side,R*(1-math.cos(a)))))
                    dd=add(mul(dr,math.cos(a)),mul(side,math.sin(a))); z=min(z,pt[2]-s.hang(dd,od(p['t'])/2))
            for e,d in p['third']: z=min(z,e[2]-s.hang(d,od(p['t'])/2))
        return z
    def lowest_rim(s,refs,nxt=True):
        z=s.lowest_tube(refs)
        for p in s.pieces:
            if not p['ref'].startswith(refs): continue
            if p['kind'] in BODIES or p['kind']=='seat-valve':
                for e,dd in((p['frm'],p['d0']),(p['to'],p['d1'])): z=min(z,e[2]-s.hang(dd,od(p['t'])/2+25))
            if p['kind'] in('tee','cross'):
                for (e,dd),on in zip(p['third'],(p['p'].get('third') or 'cap',p['p'].get('fourth') or 'cap')):
                    if on=='valve':
                        e=add(e,mul(dd,(40+od(p['t'])/2)*4/3)); z=min(z,e[2]-s.hang(dd,od(p['t'])/2+25))
        for i,j in enumerate(s.joints):
            if j['ref'].startswith(refs):
                z=min(z,j['at'][2]-s.hang(j['dir'],s.rim(j)))
        if nxt:
            last=[p for p in s.pieces if p['ref'].startswith(refs)]
            if last:
                i=s.pieces.index(last[-1])
                if i+1<len(s.joints): j=s.joints[i+1]; z=min(z,j['at'][2]-s.hang(j['dir'],s.rim(dict(up=j['up'],down=('weld',j['up'][1])))))
        return z
def lstsq(A,b):
    """least squares of least norm: Tikhonov, iterated from nothing (van Loan & Golub; Engl)"""
    m=len(A); n=len(A[0]) if A else 0
    if not m or not n: return [0]*n
    lam=1e-6; x=[0.]*n
    M=[[sum(A[i][j]*A[i][k] for i in range(m))+(lam if j==k else 0) for k in range(n)] for j in range(n)]
    for _ in range(60):
        r=[bi-sum(a*xx for a,xx in zip(row,x)) for bi,row in zip(b,A)]
        d=gauss(M,[sum(A[i][j]*r[i] for i in range(m)) for j in range(n)])
        x=[a+c for a,c in zip(x,d)]
    return x
def gauss(M,b):
    n=len(b); M=[r[:]+[v] for r,v in zip(M,b)]
    for i in range(n):
        p=max(range(i,n),key=lambda r:abs(M[r][i])); M[i],M[p]=M[p],M[i]
        for r in range(n):
            if r!=i and M[i][i]:
                k=M[r][i]/M[i][i]; M[r]=[a-k*c for a,c in zip(M[r],M[i])]
    return [M[i][n]/M[i][i] if M[i][i] else 0 for i in range(n)]
RHO=7900.; g=9.80665
class Tank:
    def __init__(s,d):
        t=d['tank']; s.D=L(t['bore']); s.H=L(t['height']); s.w=L(t.get('wall'),2.); s.bot=t.get('bottom') or 'cone'
        o=t['outlet']; s.side=o.get('place')=='side'; s.o=0 if s.side else bore(o['size'])
        s.half=math.radians(float((t.get('coneAngle') or '60°').rstrip('°'))/2)
        R,D=None,s.D
        if s.bot=='cone': s.dep=(D/2-s.o/2)/math.tan(s.half)
        elif s.bot=='flat': s.dep=0
        else:
            s.R,s.r=(D,.1*D) if s.bot=='klopper' else (.8*D,.154*D)
            s.ring=D/2-s.r
            s.zc=math.sqrt((s.R-s.r)**2-s.ring**2)   # crown centre over knuckle centre plane, downwards dish
            s.dep=s.R-s.zc
        s.depth=s.dep+s.H
        s.zero=-L(o.get('above'),0.) if s.side else L(o.get('stub'),40.)
    def rin(s,z):
        """inside radius at level z over the lowest inside point"""
        if z>=s.dep: return s.D/2
        if s.bot=='cone': return s.o/2+z*math.tan(s.half)
        # dish: crown centre at height R; tangent where line from crown centre through knuckle centre
        zk=s.R-s.R*(s.zc)/(s.R-s.r)   # height of the tangent point
        if z<=zk: return math.sqrt(max(0,2*s.R*z-z*z))
        return s.ring+math.sqrt(max(0,s.r**2-(s.dep-z)**2))
    def under(s,r):
        """height of the outside of the bottom at r (min over inside points of the parallel surface): brute force, the envelope of balls of radius w"""
        if s.bot=='flat': return -s.w
        rr=min(r,s.D/2+s.w*(math.cos(s.half) if s.bot=='cone' else 1))
        if s.bot=='cone':
            # outside line: offset by w normal to wall
            return (rr+s.w/math.cos(s.half)-s.w/math.cos(s.half)-s.o/2)/math.tan(s.half)-s.w/math.sin(s.half)
        z=1e9; N=40000
        lo,hi=max(0,rr-s.w*1.05),s.D/2
        for i in range(N+1):
            a=i/N; zz=s.dep*a; q=s.rin(zz); dx=rr-q
            if abs(dx)<=s.w: z=min(z,zz-math.sqrt(s.w**2-dx*dx))
        return z
    def contents(s,z):
        """litres(mm3), centroid, by Simpson"""
        def V(a,b,n):
            h=(b-a)/n; v=m=0
            for i in range(n+1):
                c=1 if i in(0,n) else 4 if i%2 else 2
                zz=a+i*h; A=math.pi*s.rin(min(zz,1e9))**2
                if zz>=s.dep-1e-12 and b<=s.dep: A=math.pi*s.D**2/4
                v+=c*A; m+=c*A*zz
            return v*h/3,m*h/3
        if z<=s.dep: 
            v,m=V(0,z,4000) if z>0 else (0,0)
        else:
            v,m=V(0,s.dep,20000) if s.dep else (0,0)
            A=math.pi*s.D**2/4; v+=A*(z-s.dep); m+=A*(z*z-s.dep**2)/2
        return v,(m/v if v else 0)
    def level(s,v):
        a,b=0,s.depth
        for _ in range(60):
            c=(a+b)/2
            if s.contents(c)[0]<v: a=c
            else: b=c
        return a
    def bottom_plate(s):
        """area mm2 and its centroid height, midsurface taken as inside surface + w/2? -> return both readings: inside"""
        if s.bot=='flat': return math.pi*s.D**2/4,0
        N=20000; A=M=0
        if s.bot=='cone':
            sl=s.dep/math.cos(s.half); A=math.pi*(s.D/2+s.o/2)*sl
            M=None; r1,r2=s.o/2,s.D/2
            return A, s.dep*(r1+2*r2)/(3*(r1+r2))
        # arcs: crown from angle 0..phi, knuckle
        phi=math.asin(s.ring/(s.R-s.r))
        for R,c,a0,a1 in ((s.R,(0,s.R),0,phi),(s.r,(s.ring,s.dep),phi,math.pi/2)):
            h=(a1-a0)/N
            for i in range(N):
                a=a0+(i+.5)*h; x=c[0]+R*math.sin(a); z=c[1]-R*math.cos(a)
                A+=2*math.pi*x*R*h; M+=2*math.pi*x*z*R*h
        return A,M/A
class Stand:
    def __init__(s,d,z,liquidrho,fullV):
        st=d.get('stand',{}); T=s.T=Tank(d); s.n=st.get('legs') or 3
        s.od=L(st.get('legOD'),48.3); s.t=L(st.get('legWall'),2.); s.splay=ANG(st.get('splay')); s.foot=L(st.get('foot'),0.)
        s.feet=L(st.get('feet')); s.z=z
        # where the outer edge of a leg meets the underside
        def top_for(rtop): return T.zero+T.under(rtop)
        legtop=L(st.get('legTop'))
        hw=s.od/2/math.cos(s.splay)
        rise=lambda zt: zt+z-s.foot
        if legtop is None:
            if s.feet is None:
                rt=T.D/2-s.od/2; legtop=top_for(rt+hw)
                s.edge=top_for(rt+hw)
            else:
                f=lambda zt: top_for(max(0,s.feet-rise(zt)*math.tan(s.splay))+hw)
                a,b=-3000.,3000.
                for _ in range(80):
                    m=(a+b)/2
                    if f(m)>m: a=m
                    else: b=m
                legtop=s.edge=b
        s.top=legtop; s.rise=rise(legtop); s.leg=s.leg_axis=s.rise/math.cos(s.splay)
        s.rt=T.D/2-s.od/2 if s.feet is None else max(0,s.feet-s.rise*math.tan(s.splay))
        s.rf=s.rt+s.rise*math.tan(s.splay) if s.feet is None else s.feet
        s.cast=L(st.get('castors'),0.)
        s.arm=s.rf*math.cos(math.pi/s.n)-s.cast
        s.overall=z+T.zero+T.depth
        shell=math.pi*(T.D+T.w)*T.w*T.H*RHO*1e-9
        A,c=T.bottom_plate(); bot=A*T.w*RHO*1e-9
        area=math.pi/4*(s.od**2-(s.od-2*s.t)**2)
        legs=s.n*s.leg*area*RHO*1e-9
        if st.get('brace')=='diagonal':
            bod=L(st.get('braceOD'),33.7)
            ang=2*math.pi/s.n
            p=(s.rt,0,s.rise); q=(s.rf*math.cos(ang),s.rf*math.sin(ang),0)
            s.brace=norm(sub(p,q)); legs+=s.n*s.brace*math.pi/4*(bod**2-(bod-2*s.t)**2)*RHO*1e-9
        s.tank=shell+bot; s.frame=legs; s.dry=s.tank+legs
        f=z+T.zero
        s.lift=shell*(f+T.dep+T.H/2)+bot*(f+c)+legs*(s.foot+s.rise/2)
        s.rho=liquidrho
        s.full=T.level(fullV*1e6)
    def state(s,h):
        v,c=s.T.contents(h); m=v*1e-9*s.rho; M=s.dry+m
        zc=(s.lift+m*(s.z+s.T.zero+c))/M
        k=0
        if h>0:
            r=s.T.rin(h); k=s.rho*math.pi/4*r**4*1e-12/M*1000
        # tilt at which it tips: brute bisect of wall-sided righting: centre of mass offset at angle th
        def over(th):
            t=math.tan(th); x=k*t; y=zc+k*t*t/2      # wall-sided shift of the whole centre
            # in the tilted frame the gravity line passes x cos + ... tips when horizontal offset of c.o.m. from tipping edge is 0
            return (x+0)*math.cos(th)+y*math.sin(th)-s.arm*math.cos(th)
        a,b=0,math.pi/2-1e-6
        for _ in range(80):
            m_=(a+b)/2
            if over(m_)<0: a=m_
            else: b=m_
        return M,zc,math.degrees(a)
PLANTS=[]
n=0
FE={'clamp':('clamp/ferrule','clamp/ferrule'),'ring-joint':('ring-joint/liner','ring-joint/male'),'dairy-union':('dairy-union/liner','dairy-union/male'),
'idf':('idf/liner','idf/male'),'sms-union':('sms-union/liner','sms-union/male'),'o-ring-union':('o-ring-union/collar','o-ring-union/threaded'),
'o-ring-flange':('o-ring-flange/collar','o-ring-flange/groove'),'o-ring-clamp':('o-ring-clamp/collar','o-ring-clamp/groove'),'bsp':('bsp/female','bsp/male')}
CURVE=[{"flow":"0 L/min","head":"12 m","headRequired":"0.8 m"},{"flow":"100 L/min","head":"10 m","headRequired":"1.2 m"},{"flow":"250 L/min","head":"4 m","headRequired":"2.5 m"}]
def save(name,d):
    global n; n+=1; d={'drawoff':1,'title':name,**d}
    d['liquid']={'kind':'other','density':'1000 kg/m³','viscosity':'1 mPa·s'}; d['tank'].setdefault('fill','200 L')
    d['stand'].setdefault('height','1050 mm'); d['pump'].setdefault('curve',CURVE) if d['pump']['kind']!='none' else 0
    PLANTS.append((name,d))
def pump(size,end,away='2.2 m',height='250 mm',**k): return dict(kind='centrifugal',away=away,height=height,inSize=size,inEnd=end,curve=CURVE,**k)
def deliver(i,o,h='1.9 m',last='1.1 m'):
    return {'pieces':[{'kind':'straight','in':i,'fit':True},{'kind':'bend'},{'kind':'straight','length':last}],'height':h}
SIZES={'clamp':'bs-4825/2in','ring-joint':'bs-4825/2in','dairy-union':'din-11866-a/dn50','idf':'iso-2037/51','sms-union':'sms-3008/51','o-ring-union':'din-11866-a/dn40','o-ring-flange':'din-11866-a/dn65','o-ring-clamp':'asme-bpe/2in','bsp':'iso-1127/33.7'}
BOT=[('cone','60°'),('klopper',None),('korbbogen',None),('flat',None),('cone','90°'),('cone','120°')]
# 1-9: every family, standard stack, run down to a pump
for k,(f,(i,o)) in enumerate(FE.items()):
    b,a=BOT[k%6]; s=SIZES[f]
    tank={'bore':f'{900+50*k} mm','height':f'{1000+70*k} mm','bottom':b,'outlet':{'size':s,'end':o}}
    if a: tank['coneAngle']=a
    d={'tank':tank,'under':[{'kind':'butterfly-valve','in':i,'out':o},{'kind':'bend','in':i,'out':o}],
       'stand':{'legs':3+k%4,'bucket':'400 mm' if k%2 else '300 mm','foot':f'{10*k} mm' if k else '5 mm'},
       'run':[{'kind':'straight','in':i,'fit':True,'fall':'1:80'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend'},{'kind':'straight','out':o,'length':'150 mm','fall':'1:100'}],
       'pump':pump(s,i),'delivery':deliver(o,'weld')}
    d['pump']['outEnd']=i
    d['delivery']['pieces'][0]['in']=o
    if k%3==0: d['stand']['height']='950 mm'
    save('family-'+f,d)
C='clamp/ferrule'
# 10: 45 degree offset in plan, eccentric reducer flat down in the run
save('offset45',{'tank':{'bore':'1.1 m','height':'1.2 m','bottom':'cone','coneAngle':'60°','outlet':{'size':'asme-bpe/2in','end':C}},
 'under':[{'kind':'ball-valve','in':C,'out':C},{'kind':'bend','in':C,'out':C}],'stand':{'height':'900 mm','legs':4,'splay':'5°'},
 'run':[{'kind':'straight','in':C,'length':'300 mm','fall':'1:60'},{'kind':'bend','angle':'45°','turn':'90°'},{'kind':'straight','fit':True},{'kind':'bend','angle':'45°','turn':'-90°'},
  {'kind':'straight','fit':True},{'kind':'reducer','to':'asme-bpe/1.5in','shape':'eccentric','turn':'180°','out':C}],
 'pump':pump('asme-bpe/1.5in',C,away='2.4 m',height='600 mm',aside='-500 mm'),'delivery':deliver(C,C)})
# 11: 45 degree bends up and down
save('offset45-down',{'tank':{'bore':'800 mm','height':'900 mm','bottom':'klopper','outlet':{'size':'bs-4825/1.5in','end':C}},
 'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'bend','shape':'long','in':C,'out':C}],'stand':{'height':'850 mm','legs':3,'feet':'500 mm'},
 'run':[{'kind':'straight','in':C,'fit':True},{'kind':'bend','angle':'45°','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend','angle':'45°','turn':'0°'},{'kind':'straight','length':'222 mm','out':C}],
 'pump':pump('bs-4825/1.5in',C,away='1.9 m',height='220 mm'),'delivery':deliver(C,C)})
# 12: odd angle 30/60
save('bend30',{'tank':{'bore':'800 mm','height':'900 mm','bottom':'flat','outlet':{'size':'din-11866-a/dn40','end':'dairy-union/male'}},
 'under':[{'kind':'straight','length':'80 mm','in':'dairy-union/liner'},{'kind':'bend','angle':'60°'},{'kind':'straight','fit':True},{'kind':'bend','angle':'30°','turn':'0°'},{'kind':'straight','length':'200 mm','out':'dairy-union/male'}],'stand':{'height':'700 mm','legs':5},
 'run':[{'kind':'straight','in':'dairy-union/liner','fit':True,'out':'dairy-union/male'}],
 'pump':pump('din-11866-a/dn40','dairy-union/liner',away='1.5 m',height='250 mm'),'delivery':deliver('dairy-union/male',C)})
# 13 tee branch out, with plugs
save('tee-branch',{'tank':{'bore':'1 m','height':'1 m','bottom':'korbbogen','outlet':{'size':'bs-4825/2in','end':C}},
 'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'tee','shape':'branch','third':'valve','in':C,'out':C}],'stand':{'height':'800 mm','bucket':'350 mm'},
 'run':[{'kind':'straight','in':C,'fit':True,'fall':'1:50'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend','turn':'0°','out':C}],
 'pump':pump('bs-4825/2in',C,away='2 m',height='300 mm'),'delivery':deliver(C,C)})
# 14 tee run through with branch down and valve (bucket)
save('tee-down',{'tank':{'bore':'900 mm','height':'1 m','bottom':'flat','outlet':{'place':'side','above':'100 mm','size':'bs-4825/2in','end':C,'fall':'1:50'}},
 'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'tee','turn':'180°','third':'valve','in':C,'out':C},{'kind':'straight','in':C,'length':'200 mm','out':C}],'stand':{'height':'760 mm','bucket':'400 mm','legs':4,'foot':'60 mm','adjust':'40 mm'},
 'run':[{'kind':'straight','in':C,'fit':True,'fall':'1:50'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend','out':C}],
 'pump':pump('bs-4825/2in',C,away='2.6 m',height='300 mm'),'delivery':deliver(C,C)})
# 15 gravity, hose last
H='hose-tail/tail'; HH='hose-tail/hose'
save('hose-gravity',{'tank':{'bore':'700 mm','height':'800 mm','bottom':'cone','coneAngle':'90°','outlet':{'size':'bs-4825/1.5in','end':C}},
 'under':[{'kind':'ball-valve','in':C,'out':C},{'kind':'straight','length':'60 mm','in':C,'out':H}],'stand':{'height':'1000 mm','legs':3,'splay':'8°'},
 'run':[{'kind':'hose','length':'2.5 m','in':HH,'out':HH}],'pump':{'kind':'none'},'delivery':{'height':'300 mm','away':'1.8 m'}})
# 16 hose with pump
save('hose-pump',{'tank':{'bore':'700 mm','height':'800 mm','bottom':'cone','coneAngle':'60°','outlet':{'size':'bs-4825/2in','end':C}},
 'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'bend','in':C},{'kind':'straight','length':'50 mm','out':H}],'stand':{'height':'700 mm','legs':4,'brace':'diagonal'},
 'run':[{'kind':'hose','length':'1.6 m','fit':True,'in':HH,'out':HH}],'pump':pump('bs-4825/2in',H,away='1.5 m',height='350 mm',outEnd=C),'delivery':deliver(C,C)})
# 17 rolled/side run, pump aside and facing aside
save('aside',{'tank':{'bore':'1.2 m','height':'1.4 m','bottom':'klopper','outlet':{'size':'bs-4825/2in','end':'ring-joint/male'}},
 'under':[{'kind':'butterfly-valve','in':'ring-joint/liner','out':'ring-joint/male'},{'kind':'reducer','to':'bs-4825/1.5in','in':'ring-joint/liner'},{'kind':'bend'}],'stand':{'height':'1100 mm','legs':4,'legTop':'150 mm'},
 'run':[{'kind':'straight','fit':True},{'kind':'bend','turn':'270°'},{'kind':'straight','fit':True},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend','turn':'90°','out':'ring-joint/male'}],
 'pump':pump('bs-4825/1.5in','ring-joint/liner',away='1.6 m',height='320 mm',aside='700 mm',faces='90°',outUp='120 mm',outAhead='90 mm',outEnd='ring-joint/liner'),'delivery':deliver('ring-joint/male',C)})
# 18 raised pump: line climbs
save('pump-raised',{'tank':{'bore':'1 m','height':'1 m','bottom':'cone','coneAngle':'60°','outlet':{'size':'bs-4825/2in','end':C}},
 'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'bend','in':C,'out':C}],'stand':{'height':'600 mm','legs':3},
 'run':[{'kind':'straight','in':C,'fit':True},{'kind':'bend','turn':'0°'},{'kind':'straight','fit':True},{'kind':'bend','turn':'0°','out':C}],
 'pump':pump('bs-4825/2in',C,away='2 m',height='900 mm'),'delivery':deliver(C,C,h='2.4 m')})
# 19 three straights side by side in one direction
save('three-straights',{'tank':{'bore':'1 m','height':'1 m','bottom':'cone','coneAngle':'60°','outlet':{'size':'bs-4825/2in','end':C}},
 'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'bend','in':C,'out':C}],'stand':{'height':'600 mm','legs':3},
 'run':[{'kind':'straight','in':C,'out':C,'fit':True},{'kind':'sight-glass','in':C,'out':C},{'kind':'straight','in':C,'out':C,'fit':True},{'kind':'non-return-valve','in':C,'out':C},{'kind':'straight','in':C,'out':C,'fit':True}],
 'pump':pump('bs-4825/2in',C,away='2.417 m',height='318.25 mm'),'delivery':deliver(C,C)})
# 20 crosses, pockets, cocks, seat, diaphragm
save('many-kinds',{'tank':{'bore':'1.3 m','height':'1.1 m','bottom':'klopper','outlet':{'size':'din-11866-a/dn50','end':C}},
 'under':[{'kind':'seat-valve','in':C,'out':C}],'stand':{'height':'700 mm','legs':4},
 'run':[{'kind':'thermometer-pocket','in':C,'turn':'0°'},{'kind':'sample-cock','turn':'180°'},{'kind':'cross','turn':'90°','third':'valve','fourth':'cap'},{'kind':'diaphragm-valve','in':'weld','out':C},{'kind':'straight','in':C,'fit':True,'fall':'1:100'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend','out':C}],
 'pump':pump('din-11866-a/dn50',C,away='3 m',height='280 mm'),'delivery':deliver(C,C)})
# 21 measured lengths replaced
save('measured',{'tank':{'bore':'960 mm','height':'1150 mm','bottom':'cone','coneAngle':'75°','wall':'3 mm','outlet':{'size':'bs-4825/2in','end':'ring-joint/male','stub':'55 mm'}},
 'under':[{'kind':'butterfly-valve','in':'ring-joint/liner','out':'ring-joint/male','length':'46 mm'},{'kind':'bend','in':'ring-joint/liner','out':'ring-joint/male'}],'stand':{'height':'805 mm','legs':3,'bucket':'330 mm','legOD':'60.3 mm'},
 'run':[{'kind':'straight','in':'ring-joint/liner','fit':True,'fall':'1:80'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend'},{'kind':'straight','out':'ring-joint/male','length':'150 mm','fall':'1:80'}],
 'pump':pump('bs-4825/2in','ring-joint/liner'),'delivery':deliver('ring-joint/male',C),
 'measured':[{'part':'ring-joint/2in/liner/length','length':'27.2 mm'},{'part':'ring-joint/2in/male/length','length':'22.4 mm'},{'part':'ring-joint/2in/gap','length':'0.6 mm'}]})
# 22 mixed families with adapter pieces (clamp to ring joint)
save('mixed',{'tank':{'bore':'1 m','height':'1 m','bottom':'cone','coneAngle':'60°','outlet':{'size':'bs-4825/3in','end':'ring-joint/male'}},
 'under':[{'kind':'straight','length':'40 mm','in':'ring-joint/liner','out':C},{'kind':'butterfly-valve','in':C,'out':C},{'kind':'reducer','to':'bs-4825/2in','shape':'eccentric','turn':'0°','in':C,'out':C},{'kind':'bend','in':C,'out':'idf/male'}],'stand':{'legs':6,'bucket':'380 mm','clearance':'35 mm'},
 'run':[{'kind':'straight','in':'idf/liner','fit':True,'fall':'1:80'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend'},{'kind':'straight','out':C,'length':'150 mm','fall':'1:80'}],
 'pump':pump('bs-4825/2in',C),'delivery':deliver(C,C)})
# 23 long: several stock lengths
save('long',{'tank':{'bore':'1.6 m','height':'2 m','bottom':'klopper','outlet':{'size':'bs-4825/3in','end':C}},
 'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'bend','in':C,'out':C}],'stand':{'height':'1.8 m','legs':4,'stock':'6 m','kerf':'3 mm','legOD':'76.1 mm','splay':'6°','feet':'1100 mm'},
 'run':[{'kind':'straight','in':C,'fit':True,'fall':'1:100'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend'},{'kind':'straight','out':C,'length':'300 mm','fall':'1:100'}],
 'pump':pump('bs-4825/3in',C,away='9 m',height='400 mm'),'delivery':deliver(C,C,h='4.2 m',last='7.5 m')})
# 24 gravity run to a lower tank, drop pipe
for k,(b,a) in enumerate([('flat',None),('cone','60°'),('korbbogen',None)]):
    t={'bore':'800 mm','height':'900 mm','bottom':b,'outlet':{'size':'bs-4825/1.5in','end':'ring-joint/male'}}
    if a:t['coneAngle']=a
    save('gravity-'+b,{'tank':t,'under':[{'kind':'ball-valve','in':'ring-joint/liner','out':'ring-joint/male'},{'kind':'bend','in':'ring-joint/liner'}],'stand':{'legs':4,'height':f'{900+100*k} mm','adjust':'30 mm','foot':'50 mm'},
    'run':[{'kind':'straight','fit':True,'fall':'1:60'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True}],'pump':{'kind':'none'},'delivery':{'height':'350 mm','away':f'{1500+400*k} mm'}})
# 27 inches typed
save('inches',{'tank':{'bore':'36 in','height':'48 in','bottom':'cone','coneAngle':'60°','outlet':{'size':'asme-bpe/2in','end':C}},
 'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'bend','in':C,'out':C}],'stand':{'height':'30 in','legs':3,'stock':'20 ft','kerf':'1/8 in','bucket':'14 in'},
 'run':[{'kind':'straight','in':C,'fit':True,'fall':'1/8 in/ft'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend'},{'kind':'straight','out':C,'length':'6 in'}],
 'pump':pump('asme-bpe/2in',C,away='6 ft',height='8 in'),'delivery':deliver(C,C,h='7 ft',last='4 ft')})
# 28.. auto height, every bottom, with splay/feet
for k,(b,a) in enumerate(BOT):
    t={'bore':f'{1000+100*k} mm','height':'1.2 m','bottom':b,'wall':'2.5 mm','outlet':{'size':'bs-4825/2in','end':C}}
    if a:t['coneAngle']=a
    st={'legs':3+k%3,'bucket':'420 mm','splay':f'{3*k}°'} if k else {'legs':3,'bucket':'420 mm','feet':'700 mm'}
    if k==3: st['access']='500 mm'
    save('auto-'+b,{'tank':t,'under':[{'kind':'butterfly-valve','in':C,'out':C},{'kind':'bend','in':C,'out':C}],'stand':st,
    'run':[{'kind':'straight','in':C,'fit':True,'fall':'1:80'},{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True},{'kind':'bend'},{'kind':'straight','out':C,'length':'150 mm','fall':'1:80'}],
    'pump':pump('bs-4825/2in',C,away='2.5 m',height='300 mm'),'delivery':deliver(C,C)})

BODY={'butterfly-valve','ball-valve','diaphragm-valve','non-return-valve','sight-glass','seat-valve','hose','device'}
CLOSERS={'ring-joint':['nut'],'dairy-union':['nut'],'clamp':['clamp'],'idf':['nut','support-ring'],'sms-union':['nut'],'o-ring-union':['nut'],
 'o-ring-flange':['bolts'],'o-ring-clamp':['clamp'],'hose-tail':['clip'],'bsp':[]}
def plain(e): return not e or e=='weld'
def half_slug(e,t):
    r=jrow(e,t); s=r['joint']+'/'+e.split('/')[1]
    if r['tubes'].split()[0]!=t and (od(t),wall(t))!=(od(r['tubes'].split()[0]),wall(r['tubes'].split()[0])): s+=f'/{od(t):g}x{wall(t):g}'
    return s
def parts(P):
    """what to order by slug, a * for all that begin so, and the number of welds"""
    want=collections.Counter(); welds=0
    if not plain(P.oend): want[half_slug(P.oend,P.size)]+=1; welds+=1
    for p in P.pieces:
        if p['kind']=='straight': want[p['t']]+=p['cut']/1000
        elif p['kind']=='hose': want['hose/'+p['t']+'*']+=1
        elif p['kind'] in BODY: want[p['t']+'/'+p['kind']+'*']+=1
        elif 'slug' in p: want[p['slug']]+=1
        if p['kind'] not in BODY:
            for e,t in((p['ie'],p['t']),(p['oe'],p['t2'])):
                if not plain(e): want[half_slug(e,t)]+=1; welds+=1
        if p['kind'] in('tee','cross'):
            for on in [p['p'].get('third') or 'cap']+([p['p'].get('fourth') or 'cap'] if p['kind']=='cross' else []):
                welds+=1; want[p['t']+('/cap' if on=='cap' else '/butterfly-valve*')]+=1
    for j in P.joints:
        u,d=j['up'],j['down']
        if plain(u[0]) and plain(d[0]): welds+=1
        elif not plain(u[0]) and not plain(d[0]):
            r=jrow(*u); fam=u[0].split('/')[0]
            for c in CLOSERS[fam]:
                if fam!='clamp': want[r['joint']+'/'+c]+=1
                else: want['clamp/clamp/'+r['face'][7:]+'mm']+=1
            if fam not in('hose-tail','bsp'): want[r['joint']+'/seal/epdm']+=1
    return want,welds
def rounded(x): return round(x,4)
def plant_of(name,d):
    z=L(d['stand']['height']); P=Plant(d,z); fill=float(d['tank']['fill'].split()[0]); S=Stand(d,z,1000.,fill); st=d['stand']
    F={'tank-brimful':S.T.contents(S.T.depth)[0]*1e-6,'level-full':S.full,'overall-height':S.overall,'foot-circle':S.rf,'leg-circle':S.rt,'tipping-arm':S.arm,
       'tank-steel':S.tank,'stand-steel':S.frame}
    F['leg-length']=S.leg+(S.od*math.tan(S.splay) if S.T.bot=='flat' else 0)
    for slug,h in(('empty',0),('full',S.full)):
        M,c,th=S.state(h); F['mass-'+slug],F['centre-'+slug],F['tip-angle-'+slug]=M,c,th
        F['push-'+slug]=M*g*S.arm/min(1500,S.overall)
    F['foot-load']=F['mass-full']*g/(3 if S.n==3 else 2)
    I=math.pi/64*(S.od**4-(S.od-2*S.t)**4); A=math.pi/4*(S.od**2-(S.od-2*S.t)**2); E,fy=200e3,210.
    F['buckling-free']=math.pi**2*E*I/(2*S.leg_axis)**2; F['buckling-braced']=math.pi**2*E*I/S.leg_axis**2
    lam=math.sqrt(A*fy/F['buckling-braced' if st.get('brace') else 'buckling-free']); phi=.5*(1+.49*(lam-.4)+lam*lam)
    F['leg-resistance']=min(1,1/(phi+math.sqrt(max(0,phi*phi-lam*lam))))*A*fy/1.1
    if st.get('brace'): F['brace-length']=S.brace
    n=0; stock,kerf=L(st.get('stock'),6000.),L(st.get('kerf'),2.5)
    while (n+1)*F['leg-length']+n*kerf<=stock+1e-6: n+=1
    F['legs-per-length'],F['leg-stock-lengths']=n,-(-S.n//n)
    F['bucket-space']=P.lowest_rim('under')
    want,welds=parts(P); F['welds']=welds
    return {'name':name,'design':d,'figures':{k:rounded(v) for k,v in F.items()},
      'places':{p['ref']:[[rounded(c) for c in p['frm']],[rounded(c) for c in p['to']]] for p in P.pieces if p['kind']!='hose'},
      'cuts':{p['ref']:rounded(p['cut']) for p in P.pieces if p['kind']=='straight'},
      'parts':{k:rounded(v) for k,v in sorted(want.items())}}
if __name__=='__main__':
  with open(os.path.join(HERE,'plants.json'),'w',encoding='utf-8') as f:
      f.write('[\n'+',\n'.join(json.dumps(plant_of(*p),ensure_ascii=False,separators=(',',':')) for p in PLANTS)+'\n]\n')
