package firms

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNames(t *testing.T) {
	assert.True(t, HasWord("Low Ford Quarry"))
	assert.False(t, HasWord("Tam Pell"))
	assert.True(t, HasWord("Tichý Brod, a.s.") && HasWord("Cicha Polana sp. k."), "by what kind of company it is")
	assert.False(t, HasWord("As Tam Pell"))
	assert.True(t, HasWord("Áridos Alto Tajo") && HasWord("Otter Sands"), "in large letters as in small")
	assert.True(t, Titled.MatchString("frau") && Titled.MatchString("signora") && !Titled.MatchString("sigrid"))
	assert.Equal(t, "Tichý Brod, s.r.o.", Trim("Tichý Brod, s.r.o."))
	assert.Equal(t, "Pell Stone Ltd", Trim("Pell Stone Ltd."))
	assert.Equal(t, "Pell Stone", Trim("Pell Stone xx"))
	assert.Equal(t, "PELL STONE", Trim("SHOPPING LIST ANSWERS FROM PELL STONE"))
	assert.Equal(t, "Answers Stone Yard", Trim("Answers Stone Yard"))
	for name, want := range map[string]bool{"Aisle 9": true, "Desk 4": true, "Unit 5B": true, "Plot 7 Growers": false, "Dock Stone": false, "9 Tan Lane": true} {
		assert.Equal(t, want, Address(name), name)
	}
	assert.True(t, Alone("Anvil Creek", false), "by a word for a place")
	assert.False(t, Alone("Tam Pell", true))
	assert.True(t, One("Pell", "Sons") && !One("Low Ford Quarry", "Marl Lane Yard"))
	assert.True(t, Abbreviated("Pell Bros.") && !Abbreviated("Pell"))
	assert.True(t, AllTitles("Sales Manager") && !AllTitles("Tam, Sales"))
	assert.True(t, AllTitles("Yard Foreman") && AllTitles("Estimator"))
	assert.True(t, HouseFirst.MatchString("9 Cooper Yard") && Address("9 Cooper Row") && !Address("9 Cooper Yard"), "only a comma in front tells the last from a firm")
	assert.True(t, Same("Low Ford", "Low Ford Quarry") && !Same("Low Ford", "Marl Lane"))
}
