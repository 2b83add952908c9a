package optimise
import ("testing";"time";"context";"mediabuy/optimise/internal/randjob")
func TestZZ(t *testing.T){ 
 for seed:=range uint64(3) { job:=randjob.Job(seed, randjob.Simple(20,200,10000)); s:=time.Now(); p,err:=Solve(context.Background(), job, Options{TimeLimit: 30*time.Second}); if err!=nil {t.Log(seed,err,time.Since(s)); continue}; t.Log(seed, p.Status, p.Nodes, time.Since(s), len(p.Why)) }
}
