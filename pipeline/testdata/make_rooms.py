"""What flows, drains, cleans, vents and stands, of plants of our own making and
of others thrown by dice, worked out a second time: from the physics, with nothing
of the Go code. Writes rooms.json beside it.

    python3 make_rooms.py

Places and lengths are make_plants.py's. Friction: Colebrook, by halving. Fittings:
Hooper's two-K constants (Chem. Eng., 24 Aug 1981), Crane TP-410 for entrances and
changes of bore. Pump curves: Fritsch & Butland's monotone cubic. Times: Simpson over
the level, on many more steps than a program would take. Water: IAPWS R7-97 and
R12-08, by the formulas of their regions as written here.
Python 3, standard library only."""
import bisect, json, math, os, random
import make_plants as mp
from make_plants import L, SL, ANG, bore, od, wall, Plant, Tank, Stand
HERE = os.path.dirname(os.path.abspath(__file__))
g=9.80665
R=random.Random(20261128)

# ---- what the tank holds: mp.Tank's Simpson, its panels kept
def contents(s,z):
    if not hasattr(s,'kept'):
        N=2000; h=s.dep/N; v=m=0.; s.kept=[(0.,0.)]
        for i in range(N if s.dep else 0):
            a,b,c=(math.pi*s.rin(min(x,s.dep*(1-1e-15)))**2 for x in (i*h,(i+.5)*h,(i+1)*h))
            v+=h/6*(a+4*b+c); m+=h/6*(a*i*h+4*b*(i+.5)*h+c*(i+1)*h); s.kept.append((v,m))
    if z<=s.dep:
        if z<=0: return 0.,0.
        h=s.dep/2000; i=min(int(z/h),1999); v,m=s.kept[i]; w=z-i*h
        a,b,c=(math.pi*s.rin(min(x,s.dep*(1-1e-15)))**2 for x in (i*h,i*h+w/2,z))
        v+=w/6*(a+4*b+c); m+=w/6*(a*i*h+4*b*(i*h+w/2)+c*z)
    else:
        v,m=s.kept[-1]; A=math.pi*s.D**2/4; v+=A*(z-s.dep); m+=A*(z*z-s.dep**2)/2
    return v,(m/v if v else 0)
Tank.contents=contents

# ---- water
def psat(T):
    """Pa at T kelvin: IAPWS R7-97 region 4"""
    n=[0,1167.0521452767,-724213.16703206,-17.073846940092,12020.82470247,-3232555.0322333,14.91510861353,-4823.2657361591,405113.40542057,-0.23855557567849,650.17534844798]
    t=T+n[9]/(T-n[10]); A=t*t+n[1]*t+n[2]; B=n[3]*t*t+n[4]*t+n[5]; C=n[6]*t*t+n[7]*t+n[8]
    return (2*C/(-B+math.sqrt(B*B-4*A*C)))**4*1e6
def kell(c):
    """kg/m3 of water at c degrees: Kell 1975, within 0.02 of IAPWS to 80"""
    return (999.83952+c*(16.945176+c*(-7.9870401e-3+c*(-46.170461e-6+c*(105.56302e-9-c*280.54253e-12)))))/(1+16.879850e-3*c)
def muwater(c):
    """Pa s: IAPWS 2008, the simplified formula for 0.1 MPa (its appendix, 253 to 383 K, within 1 part in 1000)"""
    T=(c+273.15)/300
    return 1e-6*(280.68*T**-1.9+511.45*T**-7.7+61.131*T**-19.6+0.45903*T**-40)

# ---- numbers as people type them
def num(s,units):
    v,u=s.split(' ',1) if ' ' in s else (s,'')
    return float(v)*units[u]
FLOW={'L/min':1/60000,'m³/h':1/3600,'L/s':1e-3}
def flow_of(s): return num(s,FLOW)
def head_of(s): return num(s,{'m':1.})
def press(s): return num(s,{'bar':1e5,'kPa':1e3,'Pa':1.})
def cel(s): return float(s.replace('°C',''))

# ---- what is lost
def colebrook(re,rel):
    a,b=0.5,60.   # 1/sqrt f
    F=lambda x:x+2*math.log10(rel/3.7+2.51*x/re)
    for _ in range(200):
        m=(a+b)/2
        if F(m)<0: a=m
        else: b=m
        if b-a<1e-12: break
    return 1/((a+b)/2)**2
def hooper(k1,k,D): return (k1,k*(1+0.0254/D))
def crane_contraction(th):
    s=math.sin(th/2); return .8*s if math.degrees(th)<=45 else .5*math.sqrt(s)
def change(d1,d2,th):
    """Crane, on the smaller bore"""
    b=min(d1,d2)/max(d1,d2)
    if d2<d1: return crane_contraction(th)*(1-b*b)
    return (2.6*math.sin(th/2) if math.degrees(th)<=45 else 1)*(1-b*b)**2
def inter(x,xs,ys):
    for i in range(1,len(xs)):
        if x<=xs[i]: break
    return ys[i-1]+(ys[i]-ys[i-1])*(x-xs[i-1])/(xs[i]-xs[i-1])
ROUGH=5.863*0.8e-6
def mm(x): return x/1000
def drops(p):
    """head of water that a data sheet drops, by flow; beyond it with the square"""
    x=[0]+[flow_of(a['flow']) for a in p['drops']]; y=[0]+[press(a['drop'])/1000/g for a in p['drops']]; c=Pchip(x,y)
    return lambda Q: c(Q) if Q<=x[-1] else y[-1]*(Q/x[-1])**2
# ---- what other books say of the same fittings, as K1/Re + K + n f
def crane(n,D): return (0,n*.25/math.log10(.0018/(D/.0254)/3.7)**2,0)
def darby(k1,ki,kd,D): return (k1,ki*(1+kd/(D/.0254)**.3),0)
def rennels_bend(th,r):
    s=math.sin(th/2); return (0,.1*s,th*r+2.4*s+6.6*(math.sqrt(s)+s)/r**(4*th/math.pi))
def rennels_in(b,th):
    s=math.sin(th/2); j=1+.622*(th/math.pi)**.8*(1-.215*b**2-.785*b**5)
    return (0,.0696*s*(1-b**5)*j*j+(j-1)**2,(1-b**4)/8/s)
def rennels_out(b,th):
    s=math.sin(th/2); a=math.degrees(th); room=(1-b*b)**2; n=(1-b**4)/8/s
    if a<=20: return (0,8.3*math.tan(th/2)**1.75*room,n)
    if a<=60: return (0,(1.366*math.sqrt(math.sin(2*math.pi*(a-15)/180))-.17-(3.28*(.0625-b**4)*math.sqrt((a-20)/40) if b<.5 else 0))*room,n)
    return (0,(1.205-3.28*(.0625-b**4)-12.8*b**6*math.sqrt((a-60)/120) if b<.5 else 1.205-.2*math.sqrt((a-60)/120))*room,0)
def others_change(d1,d2,th):
    b=min(d1,d2)/max(d1,d2); return [rennels_in(b,th) if d2<d1 else rennels_out(b,th)]
def others(k,D,p):
    if k=='tee' and p.get('shape')=='branch': return [darby(800,.28,4,D),crane(60,D)]
    return {'tee':[darby(150,.05,4,D),crane(20,D)],'cross':[darby(150,.05,4,D),crane(20,D)],'thermometer-pocket':[darby(150,.05,4,D),crane(20,D)],'sample-cock':[darby(150,.05,4,D),crane(20,D)],
      'butterfly-valve':[crane(45,D)],'ball-valve':[crane(3,D),darby(300,.017,3.5,D)],'seat-valve':[darby(1000,.69,4,D),crane(150,D)],'diaphragm-valve':[darby(1000,.69,4.9,D),crane(149,D)],
      'non-return-valve':[darby(1500,.46,4,D),crane(100,D)]}.get(k,[])
class Line:
    """elements (ref, bore, straight, rough, K1, K) of a run of pieces, SI"""
    def __init__(s): s.e=[]; s.band=[]
    def add(s,ref,D,straight=0,k=(0,0),rough=ROUGH,by=()):
        s.e.append((ref,D,straight,rough,k[0],k[1]))
        own=(k[0],k[1],0); at=lambda c:c[0]/1e5+c[1]+.018*c[2]
        s.band.append((own,own) if callable(k[1]) else (min([own,*by],key=at),max([own,*by],key=at)))
def elements(P,pieces,first_bore,line):
    b=first_bore
    for q in pieces:
        D=mm(bore(q['t'])); D2=mm(bore(q['t2'])); k=q['kind']; p=q['p']
        if abs(D-b)>1e-9: line.add(line.e[-1][0] if line.e else q['ref'],min(D,b),0,(0,change(b,D,math.pi)),by=others_change(b,D,math.pi))
        if k=='straight': line.add(q['ref'],D,mm(q['len']))
        elif k=='hose': line.add(q['ref'],D,mm(q['len']),rough=1e-5)
        elif k=='device': line.add(q['ref'],min(D,D2),0,(0,drops(p)))
        elif k=='sight-glass': line.add(q['ref'],D,mm(q['len']))
        elif k=='bend':
            Rr,th=q['arc'][:2]; deg=math.degrees(th); w=min(1,max(0,2*(Rr/1000/D-1)))
            k1=inter(deg,[0,45,90,180],[0,500,800,1000])
            t_=inter(deg,[0,45,90,180],[0,.2,.25,.35]); w_=inter(deg,[0,45,90,180],[0,.15,.2,.3])
            line.add(q['ref'],D,mm(q['len']-Rr*th),hooper(k1,t_+w*(w_-t_),D),by=[rennels_bend(th,Rr/1000/D)]+([crane(inter(min(6,max(1,Rr/1000/D)),[1,1.5,2,3,4,6],[20,14,12,12,14,17]),D)] if abs(deg-90)<1e-9 else []))
        elif k=='reducer':
            cone=mm(q['len']-P.half(q['ie'],q['t'])-P.half(q['oe'],q['t2']))
            th=2*math.atan2(abs(D-D2),2*cone)
            line.add(q['ref'],min(D,D2),0,(0,change(D,D2,th)),by=others_change(D,D2,th))
        elif k in('tee',) and p.get('shape')=='branch': line.add(q['ref'],D,0,hooper(800,.8,D),by=others(k,D,p))
        elif k in('tee','cross','thermometer-pocket','sample-cock'): line.add(q['ref'],D,0,hooper(150,.05,D),by=others(k,D,p))
        elif k=='butterfly-valve': line.add(q['ref'],D,0,hooper(800,.25,D),by=others(k,D,p))
        elif k=='ball-valve': line.add(q['ref'],D,0,hooper(300,.1,D),by=others(k,D,p))
        elif k in('seat-valve','diaphragm-valve'): line.add(q['ref'],D,0,hooper(1000,2.,D),by=others(k,D,p))
        elif k=='non-return-valve': line.add(q['ref'],D,0,hooper(1500,1.5,D),by=others(k,D,p))
        else: raise ValueError(k)
        b=D2
    return b
class Fluid:
    def __init__(s,rho,mu=None,pv=None,n=None,K=None,ty=None): s.rho,s.mu,s.pv,s.n,s.K,s.ty=rho,mu,pv,n,K,ty
    def newton(s): return s.n is None and s.ty is None
def rabinowitsch(F,D,v):
    """stress at the wall for a mean speed: 8v/D = 4/tw^3 int_0^tw tau^2 rate dtau (Rabinowitsch), summed up in a table, no closed form"""
    if not hasattr(F,'table'):
        lo,hi,N=(F.ty,F.ty*1e3,40000) if F.ty else (1e-3,1e4,40000)
        tw,sh,sm,t0=[],[],0.,F.ty or 0.; x=lo
        for i in range(N+1):
            t=lo*(hi/lo)**(i/N) if F.n else lo+(hi-lo)*(i/N)**2
            m=(t+t0)/2; rate=lambda q:(q/F.K)**(1/F.n) if F.n else max(0,q-F.ty)/F.mu
            sm+=(t-t0)/6*(t0*t0*rate(t0)+4*m*m*rate(m)+t*t*rate(t)); t0=t
            tw.append(t); sh.append(4*sm/t**3)
        F.table=tw,sh
    tw,sh=F.table; s=8*v/D; i=bisect.bisect(sh,s)
    return tw[i-1]+(tw[i]-tw[i-1])*(s-sh[i-1])/(sh[i]-sh[i-1])
def loss(line,Q,F):
    """metres, and that of each element"""
    out=[]; cache={}
    for ref,D,st,rough,k1,k in line.e:
        v=4*Q/math.pi/D/D; h=v*v/2/g
        if Q<=0: out.append(0.); continue
        if callable(k): out.append(k(Q)); continue
        if not F.newton():
            if D not in cache: cache[D]=rabinowitsch(F,D,v)
            tw=cache[D]; re=8*F.rho*v*v/tw
            kk=k1 if ref=='delivery' else max(k1,500*k)
            out.append(4*tw*st/D/F.rho/g+h*(kk/re+k)); continue
        re=F.rho*v*D/F.mu
        if (D,rough) not in cache:
            lam=64/re; f=lam
            if re>2000:
                t=colebrook(re,rough/D); f=t if re>=4000 else max(t,lam)
            cache[D,rough]=f
        out.append(h*(cache[D,rough]*st/D+k1/re+k))
    return sum(out),out
def band(line,Q,F):
    """the least and the most that any of the books says each element loses"""
    usual=loss(line,Q,F)[1]; out=[]
    for (ref,D,st,rough,k1,k),by,u in zip(line.e,line.band,usual):
        if not F.newton() or callable(k) or Q<=0: out.append((u,u)); continue
        v=4*Q/math.pi/D/D; re=F.rho*v*D/F.mu
        if re<=2000: out.append((u,u)); continue
        f=colebrook(re,rough/D); w=[v*v/2/g*(c[0]/re+c[1]+f*(st/D+c[2])) for c in by]
        h=v*v/2/g; low=h*(min(f,64/re) if re<4000 else f)*st/D+h*(k1/re+k)
        out.append((min(low,w[0]),max(u,w[1])))
    return out
class Pchip:
    def __init__(s,x,y):
        s.x,s.y=x,y; n=len(x)
        h=[x[i+1]-x[i] for i in range(n-1)]; d=[(y[i+1]-y[i])/h[i] for i in range(n-1)]
        if n==2: s.m=[d[0]]*2; return
        m=[0.]*n
        for i in range(1,n-1):
            if d[i-1]*d[i]>0:
                w1,w2=2*h[i]+h[i-1],h[i]+2*h[i-1]; m[i]=(w1+w2)/(w1/d[i-1]+w2/d[i])
        def end(h0,h1,d0,d1):
            e=((2*h0+h1)*d0-h0*d1)/(h0+h1)
            return 0. if e*d0<=0 else 3*d0 if d0*d1<=0 and abs(e)>3*abs(d0) else e
        m[0]=end(h[0],h[1],d[0],d[1]); m[-1]=end(h[-1],h[-2],d[-1],d[-2]); s.m=m
    def __call__(s,t):
        x,y=s.x,s.y
        if t<=x[0]: return y[0]
        if t>=x[-1]: return y[-1]
        i=max(j for j in range(len(x)) if x[j]<=t); h=x[i+1]-x[i]; u=(t-x[i])/h
        return (2*u**3-3*u*u+1)*y[i]+(u**3-2*u*u+u)*h*s.m[i]+(3*u*u-2*u**3)*y[i+1]+(u**3-u*u)*h*s.m[i+1]
def solve(f,a,b,tol=1e-11):
    """f(a) and f(b) of two signs: Illinois, then halving"""
    fa,fb=f(a),f(b)
    for i in range(200):
        c=(a*fb-b*fa)/(fb-fa) if i%3 else (a+b)/2
        fc=f(c)
        if fc==0 or abs(b-a)<tol*max(abs(a),abs(b)): return c
        if (fc>0)==(fa>0): a,fa=c,fc
        else: b,fb=c,fc
    return (a+b)/2
LAST=None
class Room:
    def __init__(s,d):
        s.d=d; t=d['tank']; o=t['outlet']; st=d['stand']
        s.z=L(st['height']); s.P=P=Plant(d,s.z); s.T=T=Tank(d); s.F={}
        s.D0=mm(bore(o['size'])); s.stub=mm(L(o.get('stub'),40.)); s.side=P.side
        s.foot=mm(s.z+T.zero)
        s.brimful=T.contents(T.depth)[0]*1e-6
        s.fill=float(t['fill'].split()[0]) if 'fill' in t else .9*s.brimful
        s.full=mm(T.level(s.fill*1e6)); s.half=mm(T.level(s.fill*5e5))
        s.low=mm(L(t.get('lowest'),50.)+(L(o['above']) if s.side else 0)); s.half=max(s.half,s.low)
        s.liquid(); s.lines(); s.curve(s.f)
        dl=d.get('delivery',{})
        s.out=mm(L(dl.get('height'))) if dl.get('height') else mm(s.end()[2])
    def end(s):
        return s.P.pieces[-1]['to'] if s.P.pieces else s.P.o
    def liquid(s):
        l=s.d['liquid']; s.c=cel(l.get('temperature','20 °C')); k=l['kind']
        pv=psat(s.c+273.15); alt=L(s.d.get('site',{}).get('altitude'),0.)/1000
        # the standard atmosphere as a column of air weighed from the sea up, by Simpson over geopotential height
        H=6356766.*alt/(6356766.+alt); N=2000; h=H/N; sm=0
        for i in range(N+1): sm+=(1 if i in(0,N) else 4 if i%2 else 2)/(287.05287*(288.15-.0065*i*h))
        s.air=101325*math.exp(-9.80665*sm*h/3)
        if k=='water': s.f=Fluid(kell(s.c),muwater(s.c),pv)
        else:
            rho=float(l['density'].split()[0]); pv=press(l['vapourPressure']) if 'vapourPressure' in l else pv
            if k=='other': s.f=Fluid(rho,float(l['viscosity'].split()[0])*1e-3,pv)
            elif k=='power-law': s.f=Fluid(rho,None,pv,n=float(l['index']),K=float(l['consistency'].split()[0]))
            else: s.f=Fluid(rho,float(l['viscosity'].split()[0])*1e-3,pv,ty=press(l['yield']))
    def lines(s):
        P=s.P; t=s.d['tank']; th=math.pi
        if s.T.bot=='cone' and not s.side: th=2*s.T.half
        s.suction=Line(); s.suction.add('tank',s.D0,s.stub,(160,crane_contraction(th)),by=[(160,rennels_in(0,th)[1],0)])
        to=[q for q in P.pieces if not q['ref'].startswith('delivery')]; fro=[q for q in P.pieces if q['ref'].startswith('delivery')]
        under=[q for q in P.pieces if q['ref'].startswith('under')]
        s.delivery=Line(); s.gravity=P.gravity
        s.open=Line(); s.open.e=s.suction.e[:]; s.open.band=s.suction.band[:]
        b=elements(P,under,s.D0,s.open); s.open.add('delivery',b,0,(0,1)); s.openz=mm(under[-1]['to'][2] if under else P.o[2])
        if s.gravity:
            b=elements(P,P.pieces,s.D0,s.suction); s.suction.add('delivery',b,0,(0,1)); s.bout=b; s.open=s.suction; s.openz=None
        else:
            pu=s.d['pump']; b=elements(P,to,s.D0,s.suction); bp=mm(bore(pu['inSize']))
            if abs(bp-b)>1e-9: s.suction.add(to[-1]['ref'] if to else 'tank',min(bp,b),0,(0,change(b,bp,math.pi)),by=others_change(b,bp,math.pi))
            b=elements(P,fro,mm(bore(pu.get('outSize') or pu['inSize'])),s.delivery); s.delivery.add('delivery',b,0,(0,1)); s.bout=b
        s.whole=Line(); s.whole.e=s.suction.e+s.delivery.e; s.whole.band=s.suction.band+s.delivery.band
    def curve(s,F):
        """self.head(Q) in the fluid F, ends; None by gravity"""
        pu=s.d['pump']; s.kind=pu['kind']; s.thick=None
        if s.gravity: return
        if s.kind=='centrifugal':
            c=pu['curve']; Q=[flow_of(p['flow']) for p in c]; H=[head_of(p['head']) for p in c]; N=[head_of(p['headRequired']) for p in c]
            f=Pchip(Q,H)
            if F.newton() and F.mu/F.rho>1.5e-6:
                qb=max((i*Q[-1]/20000 for i in range(20001)),key=lambda x:x*f(x)) # where flow times head is greatest
                hb=f(qb); B=16.5*(F.mu/F.rho*1e6)**.5*hb**.0625/((qb*3600)**.375*2900**.25)
                if B>1:
                    CQ=2.71**(-.165*math.log10(B)**3.15); s.thick=B,CQ,B**(-.0547*B**.69)
                    H=[h*(1-(1-CQ)*(q/qb)**.75) for q,h in zip(Q,H)]; Q=[q*CQ for q in Q]
            s.head=Pchip(Q,H); s.req=Pchip(Q,N); s.ends=(Q[0],Q[-1]); s.shut=max(H)
        else:
            c=pu['slip']; p=[press(x['pressure'])/F.rho/g for x in c]; Q=[flow_of(x['flow']) for x in c]
            s.slip=Pchip(p,Q); s.ends=(p[0],p[-1]); s.shut=max(p[-1],press(pu['relief'])/F.rho/g if 'relief' in pu else 0)
    def run(s,h,F):
        """flow with the level h over the lowest inside point; head of the pump"""
        lev=s.foot+h; st=s.out-lev
        if s.gravity: return (s.fall(s.suction,-st,F),0.)
        if s.kind=='centrifugal':
            o=lambda Q:s.head(Q)-st-loss(s.whole,Q,F)[0]
            a,b=s.ends
            if o(b)>0: return b,s.head(b)
            if o(a)<=0: return 0.,s.head(a)
            Q=solve(o,a,b); return Q,s.head(Q)
        o=lambda H:H-st-loss(s.whole,s.slip(H),F)[0]
        a,b=s.ends
        if o(a)>0: return s.slip(a),a
        if o(b)<0: return 0.,b
        H=solve(o,a,b); return s.slip(H),H
    def fall(s,line,st,F):
        if st<=0: return 0.
        o=lambda Q:st-loss(line,Q,F)[0]
        b=1e-4
        if o(1e-12)<=0: return 0.
        while o(b)>0: b*=2
        return solve(o,1e-12,b)
    def area(s,h): return math.pi*mm(s.T.rin(h*1000))**2
    def volume(s,h): return s.T.contents(min(h,mm(s.T.depth))*1000)[0]*1e-6 if h>0 else 0.
    def held(s,F):
        """head that a yield stress holds in the line at rest: 4 tau L/D rho g, a fitting as if 500 of its K over 64 were lengths of it"""
        return sum(4*F.ty/F.rho/g*(st/D+(k1 if ref=='delivery' else max(k1,500*k))/64) for ref,D,st,r,k1,k in s.whole.e) if F.ty else 0.
    def time(s,a,b,F,dies=False):
        """s, from level b down to a, in 2N Simpson steps of each stretch; where the flow dies just under a, over the root of the height"""
        if dies:
            o=a-1e-3; lo,hi=math.sqrt(a-o),math.sqrt(b-o); N=400; h=(hi-lo)/N/2; t=0
            for i in range(2*N+1):
                y=lo+i*h; x=o+y*y; t+=(1 if i in(0,2*N) else 4 if i%2 else 2)*s.area(x)*2*y/s.run(x,F)[0]*h/3
            return t
        cuts=[a]+([mm(s.T.dep)] if a<mm(s.T.dep)<b else [])+[b]; t=0
        for lo,hi in zip(cuts,cuts[1:]):
            N=20; h=(hi-lo)/N/2
            for i in range(2*N+1):
                x=lo+i*h; A=s.area(max(x-1e-12,0) if i==2*N else x)
                t+=(1 if i in(0,2*N) else 4 if i%2 else 2)*A/s.run(x,F)[0]*h/3
        return t
    def figures(s):
        F=s.F; f=s.f; d=s.d; P=s.P
        LM=60000.
        F['air-pressure']=s.air/1000; F['tank-fill']=s.fill; F['left-in-tank']=s.volume(s.low)
        if s.side: F['heel']=s.volume(mm(L(d['tank']['outlet']['above']))-s.D0/2)
        F['liquid-density']=f.rho; F['liquid-vapour-pressure']=f.pv/1000
        if f.mu: F['liquid-viscosity']=f.mu*1000
        most=0
        for n,h in(('full',s.full),('half',s.half),('lowest',s.low)):
            Q,H=s.run(h,f); most=max(most,Q); st=s.out-s.foot-h
            F['flow-'+n]=Q*LM
            F[('fall-head-' if s.gravity else 'static-lift-')+n]=-st if s.gravity else st
            if n=='lowest': Ql=Q
            if Q<=0: continue
            lo=loss(s.suction,Q,f)[0]; ld=loss(s.delivery,Q,f)[0]
            F['line-loss-'+n]=lo+ld
            if not s.gravity:
                F['suction-loss-'+n]=lo; F['delivery-loss-'+n]=ld; F['pump-head-'+n]=H
                need=s.req(Q) if s.kind=='centrifugal' else 0
                has=max(0,s.air-f.pv)/f.rho/g+s.foot+h-mm(s.P.pin[2])-sum(x for _,x in band(s.suction,Q,f))
                F['suction-head-available-'+n]=has
                if need:
                    F['suction-head-required-'+n]=need; m=has-max(need+.6,need*1.1)
                    if abs(m)>.05: F['suction-margin-'+n]=m
                P_=f.rho*g*Q*H
                if P_>F.get('hydraulic-power',(0))*1000 : F['hydraulic-power']=P_/1000
        Q=most; v=lambda D:4*Q/math.pi/D/D
        if not s.gravity:
            F['suction-velocity']=max(v(e[1]) for e in s.suction.e); F['delivery-velocity']=v(s.bout)
        else: F['line-velocity']=max(v(e[1]) for e in s.suction.e); F['outflow-velocity']=v(s.bout)
        if Ql>0: F['submergence-lowest']=1000*s.D0*(1+2.3*(4*Ql/math.pi/s.D0**2)/math.sqrt(g*s.D0))
        lip=mm(L(d['tank']['outlet']['above']))+s.D0/2 if s.side else 0
        over=(s.low-lip)/s.D0
        if over>1 and Ql>0: F['airless-flow-lowest']=LM*math.pi/4*s.D0**2*math.sqrt(g*s.D0)*(over-1)/2.3
        if F.get('airless-flow-lowest',1)<1: del F['airless-flow-lowest']
        if f.newton(): F['reynolds']=f.rho*max(4*Q/math.pi/e[1]/f.mu for e in s.whole.e if e[1]==max(x[1] for x in s.whole.e))
        # emptying
        if s.run(s.full,f)[0]>0:
            end=s.low
            if s.gravity and Ql<=0: # it dies over the lowest level: where the fall is no more, to 1 mm
                end=solve(lambda h:(s.foot+h-s.out) if f.newton() else (s.foot+h-s.out)-s.held(f),s.low,s.full)
                F['level-of-rest']=end*1000; end+=1e-3; F['left-at-rest']=s.volume(end)
            T=s.time(end,s.full,f,end>s.low); V=s.fill-s.volume(end)
            F['transfer-time']=T/60; F['transfer-volume']=V; F['transfer-flow']=V/T*60
            dry=lambda h:h-lip-s.D0*(1+2.3*(4*s.run(h,f)[0]/math.pi/s.D0**2)/math.sqrt(g*s.D0))
            if dry(end)<0<dry(s.full):
                h=solve(dry,end,s.full,1e-9)
                F['level-of-air']=h*1000; F['left-at-air']=s.volume(h); F['time-to-air']=s.time(h,s.full,f)/60
        if s.kind=='lobe' and 'rated' in d['pump']: F['displacement']=flow_of(d['pump']['slip'][0]['flow'])*1000/float(d['pump']['rated'].split()[0])*60
        want=d.get('delivery',{}).get('flow')
        if want and s.kind=='centrifugal' and not s.thick:
            W=flow_of(want); c=d['pump']['curve']; sheet=Pchip([flow_of(x['flow']) for x in c],[head_of(x['head']) for x in c])
            for n,h in(('full',s.full),('half',s.half),('lowest',s.low)):
                asks=s.out-s.foot-h+loss(s.whole,W,f)[0]; burn=s.head(W)-asks
                if burn>0:
                    F['throttle-head-'+n]=burn; F['throttle-kv-'+n]=W*3600*math.sqrt(1e5/(1000*g*burn))
                    F['speed-for-flow-'+n]=100*solve(lambda x:x*x*sheet(W/x)-asks,max(.3,W/s.ends[1]),1.) # in %
        # what the finish adds, full: the same line with bores as smooth as glass
        Q=s.run(s.full,f)[0]
        if Q>0 and f.newton():
            glass=Line(); glass.e=[(r,D,st,0 if ro==ROUGH else ro,k1,k) for r,D,st,ro,k1,k in s.whole.e]
            F['finish-loss']=loss(s.whole,Q,f)[0]-loss(glass,Q,f)[0]
        # what the pressures are
        F['joint-pressure']=s.joint()
        p=min(s.along(h) for h in (s.full,s.half,s.low) if s.run(h,f)[0]>0); F['least-pressure']=p/1000
        if 'hydraulic-power' in F:
            eta=.4*(s.thick[2] if s.thick else 1) if s.kind=='centrifugal' else .5
            F['shaft-power']=F['hydraulic-power']/eta
            F['motor']=next(k for k in (.06,.09,.12,.18,.25,.37,.55,.75,1.1,1.5,2.2,3,4,5.5,7.5,11,15,18.5,22) if k>=1.25*F['shaft-power']*(1-1e-12))
        # line
        pieces=P.pieces; vol=math.pi/4*s.D0**2*s.stub
        for q in pieces:
            D=mm(bore(q['t'])); D2=mm(bore(q['t2'])); l=mm(q['len'])
            if q['kind']=='reducer':
                a,b=mm(P.half(q['ie'],q['t'])),mm(P.half(q['oe'],q['t2'])); c=l-a-b; N=100
                vol+=math.pi/4*(D*D*a+D2*D2*b+sum((D+(D2-D)*(i+.5)/N)**2 for i in range(N))*c/N)
            else: vol+=math.pi/4*D*D*l
        F['wash-line-volume']=vol*1000
        F['tube-length']=sum(q['cut'] for q in pieces if q['kind']=='straight')
        to=[q for q in pieces if s.gravity or not q['ref'].startswith('delivery')]
        F['largest-sphere']=min([s.D0*1000]+[bore(q[k]) for q in to for k in('t','t2')])
        if not any(q['kind'] in('tee','cross','thermometer-pocket','sample-cock','seat-valve') or q['kind']=='hose' and q['p'].get('fit') for q in pieces):
            stays=s.stays()
            if stays>.005: F['stays-shut']=F['stays-line']=stays # less is a film, a tenth of a millimetre deep
            F['stays-in-all']=stays+(0 if s.gravity else .5)+F.get('heel',0)
        s.surge(most); s.film(); s.wash(most); s.stands()
        return F
    def joint(s):
        """over the air's, at rest: the tank full, the pump pushing against a shut valve, or the delivery's column standing back"""
        most=0
        for i,j in enumerate(s.P.joints):
            beyond=j['ref'].startswith('delivery') and not s.gravity
            top=max(s.foot+s.full+(s.shut if beyond else 0),s.out)
            most=max(most,s.f.rho*g*(top-mm(j['at'][2]))/1000)
        return most
    def cuts(s,q):
        """(part of the way, height of the middle of the bore, how level, bore) along a piece"""
        D=mm(bore(q['t'])); D2=mm(bore(q['t2'])); l=mm(q['len']); z=mm(q['frm'][2]); hang=lambda d:math.sqrt(max(0,1-d[2]**2)); out=[]
        if 'arc' in q:
            Rr,th,st,side,dr=q['arc']; a=mm(mp.norm(mp.sub(st,q['frm'])))
            out=[(0,z,hang(q['d0']),D)]
            for i in range(201):
                x=th*i/200; dd=mp.add(mp.mul(dr,math.cos(x)),mp.mul(side,math.sin(x)))
                out.append(((a+mm(Rr)*x)/l,mm(st[2]+dr[2]*Rr*math.sin(x)+side[2]*Rr*(1-math.cos(x))),hang(dd),D))
            return out+[(1,mm(q['to'][2]),hang(q['d1']),D)]
        if 'corner' in q and l:
            a=mm(mp.norm(mp.sub(q['corner'],q['frm']))); c=mm(q['corner'][2])
            return [(0,z,hang(q['d0']),D),(a/l,c,hang(q['d0']),D),(a/l,c,hang(q['d1']),D2),(1,mm(q['to'][2]),hang(q['d1']),D2)]
        if q['kind']=='reducer':
            a,b=mm(s.P.half(q['ie'],q['t'])),mm(s.P.half(q['oe'],q['t2'])); z2=mm(q['to'][2]); h=hang(q['d0']); t=lambda x:z+(z2-z)*x
            return [(0,z,h,D),(a/l,t(a/l),h,D),(1-b/l,t(1-b/l),h,D2),(1,z2,h,D2)]
        if q['kind']=='hose' and q['p'].get('fit'): # taut to the pump
            d=mp.unit(mp.sub(s.P.pin,q['frm'])); return [(0,z,hang(d),D),(1,mm(s.P.pin[2]),hang(d),D)]
        return [(0,z,hang(q['d0']),D),(1,mm(q['to'][2]),hang(q['d0']),D2)]
    def along(s,h):
        """the least pressure, absolute, at the top of the bore"""
        Q,_=s.run(h,s.f); lev=s.foot+h; low=1e99
        def stretch(pieces,line,surface,lost,by):
            nonlocal low
            each={}
            for (ref,*_),b in zip(line.e,by): each[ref]=each.get(ref,0)+b
            lost+=each.get('tank',0)
            for q in pieces:
                e=each.get(q['ref'],0)
                for part,z,hang,D in s.cuts(q):
                    v=4*Q/math.pi/D/D
                    low=min(low,s.air+s.f.rho*g*(surface-z-hang*D/2-lost-part*e-v*v/2/g))
                lost+=e
        to=[q for q in s.P.pieces if s.gravity or not q['ref'].startswith('delivery')]; fro=[q for q in s.P.pieces if q not in to]
        stretch(to,s.suction,lev,0,loss(s.suction,Q,s.f)[1] if s.gravity else [b for _,b in band(s.suction,Q,s.f)])
        if not s.gravity:
            by=[a for a,_ in band(s.delivery,Q,s.f)]; stretch(fro,s.delivery,s.out,-sum(by),by)
        return low
    def surge(s,Q):
        Lg=s.stub; M=Lg*4*Q/math.pi/s.D0**2; best=None
        for q in s.P.pieces:
            D=mm(bore(q['t'])); D2=mm(bore(q['t2'])); l=mm(q['len']); Lg+=l
            M+=l*4*Q/math.pi/D/D2 if q['kind']!='reducer' else Q*4/math.pi*(mm(s.P.half(q['ie'],q['t']))/D**2+mm(s.P.half(q['oe'],q['t2']))/D2**2+(l-mm(s.P.half(q['ie'],q['t']))-mm(s.P.half(q['oe'],q['t2'])))/D/D2)
            here=(M,Lg,D2,mm(wall(q['t2'])))
            if q['kind'].endswith('-valve'): best=here
        M,Lg,D,e=best or here
        a=math.sqrt(2.2e9/s.f.rho/(1+2.2e9*D/200e9/e)); v=4*Q/math.pi/D/D; F=s.F
        F['wave-speed']=a; F['surge-sudden']=s.f.rho*a*v/1000; F['surge-quick']=min(F['surge-sudden'],2*s.f.rho*M/.2/1000)
    def film(s):
        f=s.f; F=s.F
        if not f.newton(): return
        nu=f.mu/f.rho; t=300.
        sh=s.full-mm(s.T.dep)
        if sh>0:   # Jeffreys: dh/dt + g/nu h^2 dh/dx = 0, so h = sqrt(nu x/(g t)) at x below the top; summed down the wall
            N=20000; F['film-tank']=1000*math.pi*mm(s.T.D)*sum(math.sqrt(nu*(i+.5)*sh/N/g/t) for i in range(N))*sh/N
        # line: every millimetre of wall on its own; what drains it is quicker of down the wall, with all the steep wall above it, and around its girth
        girth=0.; N=20000; inner=0.   # mean over the girth of sqrt(I(x))/sin(x)^(1/3), I = int sin^(-1/3): Jeffreys' balance taken around a level bore; x = pi y^3 takes the pole away
        def pole(n,fn): # int_0^pi/2 sin^(-1/3) x fn dx with x = y^3
            b=(math.pi/2)**(1/3); h=b/n; return sum(fn((i+.5)*h)*h for i in range(n))
        half=pole(N,lambda y:3*y*y/math.sin(y**3)**(1/3)); full=2*half
        girth=2/3/math.pi*full**1.5
        segs=[]
        for q in s.P.pieces:
            c=s.cuts(q); l=mm(q['len'])
            if q['kind']=='hose' and q['p'].get('fit'): F['film-line']=None
            if 'arc' in q:
                Rr,th,st,side,dr=q['arc']; a=mm(mp.norm(mp.sub(st,q['frm']))); b=l-a-mm(Rr)*th; D=c[0][3]
                mid=mp.add(mp.mul(dr,math.cos(th/2)),mp.mul(side,math.sin(th/2)))
                if a>1e-9: segs.append((q,a,D,D,q['d0'][2]))
                segs.append((q,mm(Rr)*th,D,D,mid[2]))
                if b>1e-9: segs.append((q,b,D,D,q['d1'][2]))
            elif 'corner' in q and l: 
                x=c[1][0]*l; segs+=[(q,x,c[0][3],c[0][3],q['d0'][2]),(q,l-x,c[3][3],c[3][3],q['d1'][2])]
            else:
                for u,w in zip(c,c[1:]):
                    if (w[0]-u[0])*l>1e-9: segs.append((q,(w[0]-u[0])*l,u[3],w[3],(q['to'][2]-q['frm'][2])/q['len'] if q['len'] else 0))
        V=0.
        for part in ([x for x in segs if s.gravity or not x[0]['ref'].startswith('delivery')],[] if s.gravity else [x for x in segs if x[0]['ref'].startswith('delivery')]):
            for way,order in((-1,part),(1,part[::-1])):
                above=0.
                for i,(q,l,a,b,dz) in enumerate(order):
                    steep=dz*way>.5
                    if not steep: above=0.
                    if (way==-1 and dz<=0) or (way==1 and dz>0):
                        lie=girth*math.sqrt(nu*(a+b)/4/t/g/math.sqrt(1-dz*dz)) if abs(dz)<1-1e-12 else 1e9
                        n=50; run=sum(math.sqrt(nu*(above+(k+.5)*l/n)/t/g/abs(dz)) for k in range(n))/n if abs(dz)>1e-9 else 1e9
                        V+=math.pi*(a+b)/2*l*min(lie,run)
                    if steep: above+=l
        if F.get('film-line',0) is not None: F['film-line']=V*1000
        else: del F['film-line']
        low=[x for x in segs if (s.gravity or not x[0]['ref'].startswith('delivery')) and x[4]<0]
        if low: D=min(min(x[2],x[3]) for x in low); F['self-venting-flow']=60000*.3*math.sqrt(g*D)*math.pi/4*D*D
    def slices(s,q,N=300):
        """(centre's height, direction, bore, length, towards the bend's centre or None, its radius) of thin slices of a piece"""
        l=mm(q['len']); out=[]
        def straight(z0,d,D0,D1,ln):
            n=max(1,int(N*ln/l)) if l else 0
            for i in range(n): x=(i+.5)/n; out.append((z0+d[2]*x*ln,d,D0+(D1-D0)*x,ln/n,None,0))
        D=mm(bore(q['t'])); D2=mm(bore(q['t2'])); z=mm(q['frm'][2])
        if 'arc' in q:
            Rr,th,st,side,dr=q['arc']; a=mm(mp.norm(mp.sub(st,q['frm']))); b=l-a-mm(Rr)*th
            straight(z,q['d0'],D,D,a)
            for i in range(N):
                x=th*(i+.5)/N; d=mp.add(mp.mul(dr,math.cos(x)),mp.mul(side,math.sin(x)))
                out.append((mm(st[2]+dr[2]*Rr*math.sin(x)+side[2]*Rr*(1-math.cos(x))),d,D,mm(Rr)*th/N,mp.sub(mp.mul(side,math.cos(x)),mp.mul(dr,math.sin(x))),mm(Rr)))
            straight(mm(q['to'][2])-q['d1'][2]*b,q['d1'],D,D,b)
        elif q['kind']=='reducer':
            a,b=mm(s.P.half(q['ie'],q['t'])),mm(s.P.half(q['oe'],q['t2'])); c=l-a-b; n=N
            straight(z,q['d0'],D,D,a); z1=z+q['d0'][2]*a; z2=mm(q['to'][2])-q['d1'][2]*b
            for i in range(n): x=(i+.5)/n; out.append((z1+(z2-z1)*x,q['d0'],D+(D2-D)*x,c/n,None,0))
            straight(z2,q['d1'],D2,D2,b)
        else: straight(z,q['d0'],D,D2,l)
        return out
    def stays(s):
        """litres at rest in lines open at both ends; a valve's ring stands 1 mm into the bore, a diaphragm's dam 0.9 radii"""
        total=0.
        for part in (s.P.pieces,) if s.gravity else ([q for q in s.P.pieces if not q['ref'].startswith('delivery')],[q for q in s.P.pieces if q['ref'].startswith('delivery')]):
            sl=[]; floor=[]; way=[]
            for q in part:
                one=s.slices(q)
                for i,x in enumerate(one):
                    z,d,D,ds,_,_=x; h=math.sqrt(max(0,1-d[2]**2)); f=z-h*D/2; oneway=False
                    if i==len(one)//2:
                        if q['kind']=='butterfly-valve': f+=.001*h
                        if q['kind']=='diaphragm-valve': f+=.9*D/2*h
                        oneway=q['kind']=='non-return-valve'
                    sl.append(x); floor.append(f); way.append(oneway)
            n=len(sl); lev=[0]*n; hi=-1e9
            for i in range(n):
                if way[i]: hi=1e9
                hi=max(hi,floor[i]); lev[i]=hi
            hi=-1e9
            for i in range(n-1,-1,-1): hi=max(hi,floor[i]); lev[i]=min(lev[i],hi)
            for i in range(n):
                z,d,D,ds,inw,Rr=sl[i]; h=math.sqrt(max(0,1-d[2]**2)); r=D/2
                if lev[i]<=z-h*r+1e-6: continue
                if h<1e-9: total+=math.pi*r*r*ds*(lev[i]>z); continue
                y=min(r,(lev[i]-z)/h); up=mp.unit(mp.sub((0,0,1),mp.mul(d,d[2]))); k=mp.dot(up,inw)/Rr if inw else 0
                m=60; ph=math.acos(max(-1,min(1,-y/r))) # strips evenly over the angle
                for j in range(m):
                    a=ph*(j+.5)/m; yy=-r*math.cos(a); total+=2*r*math.sin(a)*r*math.sin(a)*ph/m*(1-k*yy)*ds
        return total*1000
    def washliquid(s):
        """caustic soda of 2 % at 20 degrees: CRC Handbook, 102nd edition, "Concentrative properties of aqueous solutions"; its vapour pressure as water's"""
        for c in s.d['cleaning']:
            if c['agent']=='caustic': return c,Fluid(1020.7,1.112e-3,psat(293.15)),.02
        c=max(s.d['cleaning'],key=lambda c:cel(c['temperature'])); k=cel(c['temperature'])
        return c,Fluid(kell(k),muwater(k),psat(k+273.15)),0.
    def wash(s,most):
        F=s.F; c,f,w=s.washliquid(); LM=60000.
        wide=max([s.D0]+[mm(bore(q[k])) for q in s.P.pieces for k in('t','t2')]); thin=min([s.D0]+[mm(bore(q[k])) for q in s.P.pieces for k in('t','t2')])
        need=math.pi/4*wide**2*1.5; F['wash-flow']=need*LM; F['wash-speed-narrowest']=1.5*(wide/thin)**2; F['wash-reynolds']=f.rho*1.5*wide/f.mu
        keep=(s.head,s.req,s.ends,s.thick,s.shut) if s.kind=='centrifugal' else None
        s.curve(f)
        had,_=s.run(s.low,f); B=mm(s.T.D)
        F['wash-flow-had']=had*LM
        if s.kind=='centrifugal' and had>0:
            need_=s.req(had); F['wash-suction-margin']=max(0,s.air-f.pv)/f.rho/g+s.foot+s.low-mm(s.P.pin[2])-sum(x for _,x in band(s.suction,had,f))-max(need_+.6,need_*1.1)
        spray=35e-3/60*math.pi*B; F['spray-flow-least']=25*math.pi*B; F['spray-flow-most']=35*math.pi*B
        if s.kind=='centrifugal' and s.ends[0]<=spray<=s.ends[1]:
            F['spray-pressure']=f.rho*g*(s.head(spray)-(mm(s.T.depth)-s.low)-loss(s.whole,spray,f)[0])/1000
        # film of Nusselt: rho g/mu int_0^d (d y - y^2/2) dy = flow per width, found by trying
        G=spray/math.pi/B; a,b=0,.1
        for _ in range(100):
            m=(a+b)/2; y=[m*(i+.5)/200 for i in range(200)]
            if sum(m*x-x*x/2 for x in y)*m/200*f.rho*g/f.mu<G: a=m
            else: b=m
        F['film-thickness']=a*1000
        inside=math.pi*B*mm(s.T.H)+s.T.bottom_plate()[0]*1e-6
        z=s.out if s.gravity else s.openz
        lev=z+loss(s.open,spray,f)[0]-s.foot
        if s.side: lev=max(lev,mm(L(s.d['tank']['outlet']['above']))-s.D0/2)
        pool=s.volume(max(lev,0)); F['wash-pool']=pool
        V=F['wash-line-volume']; go=max(need,spray)
        end=s.ends[1] if s.kind=='centrifugal' else 0
        if had>0 and not(s.kind=='centrifugal' and abs(had-end)<1e-12): go=min(go,had)
        F['wash-residence']=V/go/LM; F['wash-rinse-least']=3*V
        F['wash-contact']=max(0,{'caustic':20.}.get(c['agent'],10.)-V/go/LM)
        batch=V+a*inside*1000+pool+30; F['wash-batch']=batch
        if w: F['wash-chemical']=w*f.rho*batch/1000
        k=cel(c['temperature']); S=Stand(s.d,s.z,1000.,s.fill)
        F['wash-heat']=(f.rho*batch/1000*4184+S.tank*500)*(k-10)/3.6e6
        # breath
        rho=s.air/(287.05287*293.15); hole=lambda Q,p:1000*math.sqrt(4*Q/math.pi/.6/math.sqrt(2*p/rho))
        F['vent-drawing']=hole(most,250)
        run=s.fall(s.open,s.foot+s.full-z,s.f); F['vent-running']=hole(run,250); F['vent-filling']=hole(max(run,most),250)
        hot=max(cel(x['temperature']) for x in s.d['cleaning'])
        # a litre of rinse of 10 degrees warmed to the heat at which water boils here, in steam that gives up 2256.5 kJ/kg; steam as a gas, 0.5981 kg/m3 at 100 degrees
        Tb=solve(lambda T:psat(T)-s.air,340,380); F['steam-volumes']=kell(10)*4.1855*(Tb-283.15)/2256.5/(.5981*s.air/101325*373.124/Tb)
        F['steam-condensed']=F['steam-volumes']*spray*LM; F['vent-rinse']=hole(spray*F['steam-volumes'],1000); F['vent-rinse-wide']=hole(spray*F['steam-volumes'],5000)
        p1,p2=psat(hot+273.15),psat(283.15)
        F['shut-cooled']=((s.air-p1)*283.15/(hot+273.15)+p2)/1000; F['shut-vacuum']=s.air/1000-F['shut-cooled']
        if w: F['caustic-swallows']=1000*F['wash-chemical']/2/.0399971*8.314462618*293.15/s.air
    def stands(s):
        F=s.F; st=s.d['stand']; S=Stand(s.d,s.z,s.f.rho,s.fill)
        def post(h):
            M,c,th=S.state(h); return M,c,th
        for slug,h in(('empty',0),('full',S.full)):
            M,c,th=post(h); F['mass-'+slug],F['centre-'+slug],F['tip-angle-'+slug]=M,c,th
        if s.T.bot=='flat' and s.fill>50: # at each incline the surface, a plane, is tried at every height: the worst of them, column by column
            r=mm(s.T.D)/2; n,m=40,40; cols=[(r*(i+.5)/n*math.cos((j+.5)*math.pi/m),r*(i+.5)/n*r/n*2*math.pi/m) for i in range(n) for j in range(m)]
            foot=s.foot; arm=mm(S.arm); lift=S.lift/1000
            def turns(t):
                best=(-1e9,0,0); top=s.full+r*t
                for i in range(160):
                    c=-r*t+(top+r*t)*(i/160)**2; M=lift*t-S.dry*arm; V=0.
                    for x,A in cols:
                        h=c+t*x
                        if h>0: V+=A*h; M+=s.f.rho*A*h*(x+(foot+h/2)*t-arm)
                    if V>s.fill/1000: break
                    best=max(best,(M,V,c))
                return best
            a,b=0.,1.
            for _ in range(22):
                c=(a+b)/2; w=turns(c)
                if w[0]>0: b=c
                else: a=c
            V=turns(b)[1]*1000; tip=math.degrees(math.atan(b))
            if 1<V<.97*s.fill and tip<.99*min(F['tip-angle-empty'],F['tip-angle-full']): F['tip-angle-worst']=tip
        F['foot-load']=F['mass-full']*g/(3 if S.n==3 else 2)
        pad=L(st.get('pad'),60.); F['pad-pressure']=F['foot-load']/(math.pi/4*pad**2)*1000
        A=math.pi/4*(S.od**2-(S.od-2*S.t)**2); I=math.pi/64*(S.od**4-(S.od-2*S.t)**4); load=F['foot-load']
        F['leg-stress']=(load*math.cos(S.splay)/A+(0 if st.get('brace') else load*math.sin(S.splay)*S.leg*S.od/2/I))*1000
        if S.n>3: # the two feet that stand furthest apart one under the other, tried by turning the floor
            site=s.d.get('site',{}); fl=SL(site.get('floorFall')) or 0
            wide=max(max(math.cos(2*math.pi*i/S.n+t) for i in range(S.n))-min(math.cos(2*math.pi*i/S.n+t) for i in range(S.n)) for t in [x*math.pi/3600 for x in range(7200)])
            F['adjusters-needed']=fl*S.rf*wide+L(site.get('uneven'),5.)

# ---- plants
C='clamp/ferrule'; TEMP=['5 °C','12 °C','20 °C','35 °C','60 °C','75 °C']
COLD=[{'agent':'water','temperature':'15 °C'},{'agent':'caustic','temperature':'20 °C'}]
def lq():
    k=R.choice(['water','water','other','other','thick','power-law','bingham'])
    if k=='water': return {'kind':'water','temperature':R.choice(TEMP)}
    d={'kind':k,'density':f'{R.randint(960,1180)} kg/m³','vapourPressure':f'{R.randint(5,200)/10} kPa'}
    if k=='other': d['viscosity']=f'{R.randint(4,14)/10} mPa·s'
    if k=='thick': d['kind']='other'; d['viscosity']=f'{R.randint(30,400)/10} mPa·s'
    if k=='power-law': d['consistency']=f'{R.randint(10,120)/10} Pa·s^n'; d['index']=f'{R.randint(30,80)/100}'
    if k=='bingham': d['viscosity']=f'{R.randint(50,300)} mPa·s'; d['yield']=f'{R.randint(1,60)} Pa'
    return d
def thrown(i):
    D=R.randrange(600,1900,10); bot,ang=R.choice(mp.BOT)
    size=R.choice(['bs-4825/1.5in','bs-4825/2in','bs-4825/2.5in','din-11866-a/dn50','asme-bpe/2in','iso-2037/51'])
    grav=R.random()<.3; side=bot=='flat' and R.random()<.5 or R.random()<.1
    t={'bore':f'{D} mm','height':f'{R.randrange(700,2200,10)} mm','bottom':bot,'wall':f'{R.choice([1.5,2,2.5,3])} mm','lowest':f'{R.randrange(30,160,5)} mm','outlet':{'size':size,'end':C}}
    if ang: t['coneAngle']=ang
    if side: t['outlet'].update(place='side',above=f'{R.randrange(80,200,5)} mm')
    l=lq(); small=None; s2=size
    under=[{'kind':R.choice(['butterfly-valve','ball-valve','diaphragm-valve'] if l['kind']!='bingham' else ['ball-valve']),'in':C,'out':C}]
    if size in('bs-4825/2in','bs-4825/2.5in') and R.random()<.6:
        s2='bs-4825/1.5in' if size=='bs-4825/2in' else R.choice(['bs-4825/1.5in','bs-4825/2in'])
        under.insert(R.choice([0,1]),{'kind':'reducer','to':s2,'in':C,'out':C})
    if not side: under.append({'kind':'bend','in':C,'out':C})
    run=[{'kind':'straight','in':C,'fit':True,'fall':f'1:{R.randrange(40,110,5)}'}]
    if R.random()<.3: run.insert(0,{'kind':R.choice(['sight-glass','non-return-valve']),'in':C,'out':C})
    if R.random()<.3: run+=[{'kind':R.choice(['tee','thermometer-pocket']),'turn':'180°'},{'kind':'straight','length':f'{R.randrange(60,200,10)} mm','fall':'1:60'}]
    run+=[{'kind':'bend','turn':'180°'},{'kind':'straight','fit':True}]
    site={'altitude':f'{R.choice([0,0,350,900,1800])} m'}
    st={'legs':R.randint(3,6),'height':f'{R.randrange(800,1300,10)} mm','legOD':R.choice(['48.3 mm','60.3 mm']),'splay':R.choice(['0°','0°','4°','8°']),'pad':f'{R.choice([60,80])} mm'}
    if R.random()<.3: st['brace']='diagonal'
    if grav: rest={'pump':{'kind':'none'},'delivery':{'height':f'{R.randrange(150,450,10)} mm','away':f'{D/2+R.randrange(900,3000,10):g} mm'}}
    else:
        run+=[{'kind':'bend'},{'kind':'straight','out':C,'length':f'{R.randrange(100,400,10)} mm','fall':'1:80'}]
        pu=dict(away=f'{D/2+R.randrange(1100,2500,10):g} mm',height=f'{R.randrange(200,400,10)} mm',inSize=s2,inEnd=C,outUp=f'{R.randrange(0,150,10)} mm')
        if l['kind'] in('power-law','bingham') or R.random()<.2:
            q=R.randrange(15,70); pu.update(kind='lobe',slip=[{'pressure':f'{p} bar','flow':f'{q*(1-.02*p):g} L/min','headRequired':'1.5 m'} for p in(0,3,6,10)],rated='200 rpm',relief='10 bar')
        else:
            q=R.randrange(90,400,10); h=R.randrange(70,200)/10
            pu.update(kind='centrifugal',curve=[{'flow':f'{q*x:g} L/min','head':f'{h*y:g} m','headRequired':f'{r} m'} for x,y,r in((0,1,.7),(.3,.96,.9),(.6,.8,1.3),(1,.35,2.4))])
        rest={'pump':pu,'delivery':{'pieces':[{'kind':'straight','in':C,'fit':True},{'kind':'bend'},{'kind':'straight','length':f'{R.randrange(500,6000,50)} mm'}],'height':f'{R.randrange(1500,3200,10)} mm'}}
    clean=[{'agent':'water','temperature':'15 °C'},{'agent':'hot-water','temperature':f'{R.randrange(50,76)} °C'}] if R.random()<.6 else [{'agent':'water','temperature':'15 °C'},{'agent':'caustic','temperature':'20 °C'},{'agent':'water','temperature':'15 °C'}]
    d={'drawoff':1,'title':f'thrown-{i}','tank':t,'under':under,'stand':st,'run':run,**rest,'liquid':l,'site':site,'cleaning':clean}
    return d
def sagging(i):
    """lines that hold liquid: up to a pump that stands high, with a step or a dam on the way"""
    D=R.randrange(800,1500,10); bot,ang=R.choice(mp.BOT[:3]); size=R.choice(['bs-4825/2in','bs-4825/2.5in'])
    t={'bore':f'{D} mm','height':f'{R.randrange(900,1600,10)} mm','bottom':bot,'outlet':{'size':size,'end':C}}
    if ang: t['coneAngle']=ang
    small='bs-4825/1.5in' if size=='bs-4825/2in' else 'bs-4825/2in'
    under=[{'kind':R.choice(['butterfly-valve','ball-valve']),'in':C,'out':C},{'kind':'bend','in':C,'out':C}]
    run=[{'kind':'straight','in':C,'out':C,'fit':True,'fall':f'1:{R.randrange(30,120,5)}'}]
    s2=size
    extra=R.choice(['butterfly-valve','diaphragm-valve','non-return-valve','concentric','eccentric',None])
    if extra in('concentric','eccentric'):
        run.append({'kind':'reducer','to':small,'shape':extra,'in':C,'out':C,**({'turn':'180°'} if extra=='eccentric' and R.random()<.5 else {})}); s2=small
    elif extra: run.append({'kind':extra,'in':C,'out':C})
    run+=[{'kind':'straight','in':C if extra else 'weld','length':f'{R.randrange(100,600,10)} mm','fall':'1:100'}]
    run+=[{'kind':'bend','turn':'0°','angle':R.choice(['90°','90°','45°'])},{'kind':'straight','fit':True},{'kind':'bend','turn':'0°' if run[-1].get('angle')!='45°' else '180°','out':C}]
    if run[-3]['angle']=='45°': run[-1].update(turn='180°',angle='45°')
    return {'drawoff':1,'title':f'sagging-{i}','tank':t,'under':under,'stand':{'legs':3,'height':f'{R.randrange(600,900,10)} mm'},'run':run,
     'pump':mp.pump(s2,C,away=f'{D/2+R.randrange(2200,3000,10):g} mm',height=f'{R.randrange(850,1100,10)} mm'),'delivery':mp.deliver(C,C,h='2.6 m'),'liquid':{'kind':'water','temperature':'20 °C'},'cleaning':COLD}
def rounded(x): return float(f'{x:.7g}')
def room(name,d):
    return {'name':name,'design':d,'figures':{k:rounded(v) for k,v in Room(d).figures().items()}}
PLANTS=[(f'thrown-{i}',thrown(i)) for i in range(60)]
PLANTS+=[(f'sagging-{i}',sagging(i)) for i in range(16)]
# the examples, their liquids by figures of their own, and what make_plants.py has drawn
for n,l in(('perry',{'density':'1002 kg/m³','viscosity':'1.7 mPa·s','vapourPressure':'1.7 kPa'}),('settling',{'density':'1048 kg/m³','viscosity':'1.9 mPa·s','vapourPressure':'1.1 kPa'}),('whey',{'density':'1000 kg/m³','viscosity':'0.49 mPa·s','vapourPressure':'34 kPa','temperature':'72 °C'}),('puree',None)):
    with open(os.path.join(HERE,'..','..','testdata',n+'.json'),encoding='utf-8') as f: d=json.load(f)
    if l: d['liquid']={'kind':'other',**l}
    d['cleaning']=COLD; d['stand'].setdefault('height','1100 mm')
    PLANTS.append((n,d))
PLANTS+=[('drawn-'+n,{**d,'cleaning':COLD}) for n,d in mp.PLANTS]
if __name__=='__main__':
    with open(os.path.join(HERE,'rooms.json'),'w',encoding='utf-8') as f:
        f.write('[\n'+',\n'.join(json.dumps(room(*p),ensure_ascii=False,separators=(',',':')) for p in PLANTS)+'\n]\n')
